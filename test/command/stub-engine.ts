import type { Engine } from '../../src/command/run-inspect';
import { type Findings, type Point, Problem } from '../../src/flow';
import { conductor, findings } from '../record/sample-job';

/** Findings of a photo twice as large as its working image. */
export const doubled = (name: string): Findings => {
  const made = findings('0'.repeat(64));
  return { ...made, photo: { ...made.photo, name, width: 1600, height: 1200 } };
};

/** An engine that answers by name: `bad` cannot be read, `crash` breaks the engine, all else is the sample. */
export function stubEngine(log: string[] = []): () => Promise<Engine> {
  return async () => {
    log.push('open');
    return {
      async inspect(_bytes: Uint8Array, name: string, { at = [] }: { at?: readonly Point[] }) {
        if (name.startsWith('bad')) throw new Problem('truncated picture');
        if (name.startsWith('crash')) throw new TypeError('fault');
        const probes = at.map((point, k) => ({
          at: point,
          conductor: k === 0 ? conductor('c1') : null,
          touched: null,
        }));
        return { findings: doubled(name), probes };
      },
      dispose: () => log.push('dispose'),
    };
  };
}
