import { readFile } from 'node:fs/promises';
import type { NamedConductor } from '../../flow';
import { identify } from '../../identify';
import { NOTHING_KNOWN } from '../../inspect';
import { openInspector } from '../../inspect/inspect.node.ts';
import { judge } from '../../verify';
import { median } from './statistics';

export const COUNTS = [6, 12, 24, 40, 80, 120] as const;
const REPEATS = 5;
const SCENE = new URL('../../../sample-images/gutter-mixed-480-208.jpg', import.meta.url);

export interface EngineBench {
  readonly conductors: number;
  readonly identifyMs: number;
  readonly judgeMs: number;
}

/** Time from named conductors to the phase map and the verdict, for photos of more and more conductors. */
export async function benchEngine(): Promise<EngineBench[]> {
  const inspector = await openInspector();
  const { findings } = await inspector.inspect(await readFile(SCENE), 'scene.jpg');
  inspector.dispose();
  const some = findings.conductors;
  const time = (work: () => unknown): number => {
    const runs = Array.from({ length: REPEATS + 1 }, () => {
      const begun = performance.now();
      work();
      return performance.now() - begun;
    });
    return median(runs.slice(1));
  };
  return COUNTS.map((count) => {
    const conductors = Array.from(
      { length: count },
      (_, k): NamedConductor => ({ ...some[k % some.length]!, id: `c${k}`, crossings: [] }),
    );
    const map = identify(conductors, NOTHING_KNOWN);
    return {
      conductors: count,
      identifyMs: time(() => identify(conductors, NOTHING_KNOWN)),
      judgeMs: time(() => judge(map, [])),
    };
  });
}
