import type { Findings, Point } from '../../../src/flow';
import type { Inspector } from '../../../src/inspect/inspect.node.ts';
import { pixelsOf, type Transform } from '../images/transforms';
import { type Change, changeOf, foundAt, middleOf, roleOf, type Said, SURE, saidOf } from './compare';

/** A place on a conductor, full-size pixels of the upright photo; its true name where somebody knows it. */
export interface Place {
  readonly at: Point;
  readonly truth?: string;
}

export interface Labelled {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly places: readonly Place[];
}

/** One answer before and after a change. */
export interface Outcome {
  readonly file: string;
  readonly transform: string;
  /** Whether a finger pointed, the program found it by itself, or its place in the phase map is meant. */
  readonly way: 'pointed' | 'found' | 'map';
  readonly at: Point;
  readonly truth?: string;
  readonly before: Said;
  readonly after: Said;
  readonly change: Change;
}

/** The answer at a place by each way, as far as there is one. */
interface Answer {
  readonly pointed: Said | null;
  readonly found: Said | null;
  readonly map: Said | null;
}

interface Reading {
  readonly findings: Findings;
  answerAt(at: Point): Answer;
}

async function read(inspector: Inspector, bytes: Uint8Array, name: string): Promise<Reading> {
  const photo = await inspector.open(bytes, name);
  const { findings } = photo;
  const scale = findings.workingWidth / findings.photo.width;
  return {
    findings,
    answerAt([x, y]) {
      const at: Point = [x * scale, y * scale];
      const pointed = photo.trace(at);
      const found = foundAt(findings, at);
      const role = found && roleOf(findings.map, found.id);
      return {
        pointed: pointed && saidOf(pointed),
        found: found && saidOf(found),
        map: role,
      };
    },
  };
}

/** Reads a photo as it is and under each change, and compares every answer at every place. */
export async function readChanged(
  inspector: Inspector,
  { file, bytes, places }: Labelled,
  transforms: readonly Transform[],
): Promise<Outcome[]> {
  const pixels = await pixelsOf(bytes);
  const plain = await read(inspector, bytes, file);
  const scale = plain.findings.workingWidth / plain.findings.photo.width;
  const middles = plain.findings.conductors.map((c): Place => {
    const [x, y] = middleOf(c);
    return { at: [x / scale, y / scale] };
  });
  const asked = [...places, ...middles].map((place) => ({ ...place, before: plain.answerAt(place.at) }));
  const outcomes: Outcome[] = [];
  for (const transform of transforms) {
    const changed = await read(inspector, await transform.apply(pixels), file);
    for (const { at, truth, before } of asked) {
      const moved = transform.move(at, pixels);
      if (!moved) continue;
      const after = changed.answerAt(moved);
      for (const way of ['pointed', 'found', 'map'] as const) {
        const [a, b] = [before[way], after[way]];
        if (!a || !b) continue;
        const known = way === 'map' ? undefined : truth;
        outcomes.push({
          file,
          transform: transform.name,
          way,
          at,
          ...(known === undefined ? {} : { truth: known }),
          before: a,
          after: b,
          change: changeOf(a, b, known),
        });
      }
    }
  }
  return outcomes;
}

export interface Rate {
  readonly transform: string;
  readonly way: Outcome['way'];
  readonly compared: number;
  readonly sure: number;
  readonly unsure: number;
  readonly decided: number;
  readonly mended: number;
  readonly different: number;
  /** Confidently different answers among all that were compared. */
  readonly rate: number;
}

/** Counts per change and way, in the order they were tried. */
export function rates(outcomes: readonly Outcome[]): Rate[] {
  const groups = new Map<string, Outcome[]>();
  for (const one of outcomes) {
    const key = `${one.way}\n${one.transform}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((all) => {
    const count = (change: Change): number => all.filter((o) => o.change === change).length;
    const different = count('confidently different');
    return {
      transform: all[0]!.transform,
      way: all[0]!.way,
      compared: all.length,
      sure: all.filter((o) => o.after.confidence >= SURE).length,
      unsure: count('unsure'),
      decided: count('decided'),
      mended: count('mended'),
      different,
      rate: different / all.length,
    };
  });
}
