import type { Findings, NamedConductor, PhaseMap, Point } from '../../../src/flow';

/** Beyond this probability the program counts as sure. */
export const SURE = 0.9;

/** What one conductor is said to be: a color name or bare metal, and how sure. */
export interface Said {
  readonly name: string;
  readonly confidence: number;
  readonly set: readonly string[];
}

/** Green with a yellow stripe and "green-yellow" are one answer. */
export function saidOf(c: NamedConductor): Said {
  if (c.covering === 'bare') return { name: 'bare', confidence: c.coveringConfidence, set: ['bare'] };
  const { best, confidence, set } = c.insulation;
  const striped = (a: string, b: string) => best === a && c.stripe?.name === b;
  const name = striped('green', 'yellow') || striped('yellow', 'green') ? 'green-yellow' : best;
  return { name, confidence, set };
}

export type Change = 'same' | 'unsure' | 'decided' | 'mended' | 'confidently different';

/**
 * What became of an answer. Where the truth is known, a sure new name is mended or wrong. Where it is not, a sure name
 * out of the set that could not be excluded before contradicts nothing: it was decided.
 */
export function changeOf(before: Said, after: Said, truth?: string): Change {
  if (after.name === before.name) return 'same';
  if (after.confidence < SURE) return 'unsure';
  if (truth !== undefined) return after.name === truth ? 'mended' : 'confidently different';
  return before.confidence < SURE && before.set.includes(after.name) ? 'decided' : 'confidently different';
}

/** Even-odd test of a point against the outlines of a conductor. */
const holds = (c: NamedConductor, [x, y]: Point): boolean =>
  c.outlines.some((ring) => {
    let inside = false;
    ring.forEach(([xi, yi], i) => {
      const [xj, yj] = ring[(i + ring.length - 1) % ring.length]!;
      if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
    });
    return inside;
  });

/** The found conductor that covers a point, if exactly one does: two would leave open which is meant. */
export function foundAt(findings: Findings, at: Point): NamedConductor | null {
  const covering = findings.conductors.filter((c) => holds(c, at));
  return covering.length === 1 ? covering[0]! : null;
}

/** The middle of a conductor along its center line. */
export const middleOf = (c: NamedConductor): Point => c.centerline[c.centerline.length >> 1]!;

/** A role less probable than this counts as excluded by the map. */
const EXCLUDED = 0.05;

/** The role at the top for a conductor, with its system; its set holds the roles not excluded. Null: the map has none. */
export function roleOf(map: PhaseMap, id: string): Said | null {
  const roles = map.assignments.find((a) => a.conductor === id)?.roles ?? [];
  const name = (r: (typeof roles)[number]): string => `${r.role} of ${r.system}`;
  const top = roles[0];
  if (!top) return null;
  const set = roles.filter((r) => r.probability >= EXCLUDED).map(name);
  return { name: name(top), confidence: top.probability, set };
}
