import type { NamedConductor, PhotoPlace, Point, Said, Sighting, Termination } from '../../flow';

/** Who lands where, as far as it has been said: conductor ids by termination id. */
export type Pairs = Readonly<Record<string, string>>;

/**
 * Conductors as they lie side by side: from left to right where most of them run up and down, from top to bottom where
 * most run across. Those without a line come last.
 */
export function sideBySide(conductors: readonly NamedConductor[]): readonly NamedConductor[] {
  let [across, down] = [0, 0];
  for (const { centerline } of conductors) {
    const [first, last] = [centerline[0], centerline.at(-1)];
    if (!first || !last) continue;
    across += Math.abs(last[0] - first[0]);
    down += Math.abs(last[1] - first[1]);
  }
  const axis = down >= across ? 0 : 1;
  const middle = (line: readonly Point[]): number =>
    line.length === 0 ? Number.POSITIVE_INFINITY : line.reduce((sum, p) => sum + p[axis], 0) / line.length;
  return conductors
    .map((conductor, k) => ({ conductor, k, at: middle(conductor.centerline) }))
    .sort((a, b) => (a.at === b.at ? a.k - b.k : a.at - b.at))
    .map(({ conductor }) => conductor);
}

/**
 * The terminations a photo may show by where it was taken: the one it was taken of, those of the lines that hold its
 * space, or all of its panel. In the order of the schedule.
 */
export function terminationsAt(
  place: Pick<PhotoPlace, 'panel' | 'space' | 'termination'>,
  terminations: readonly Termination[],
): readonly Termination[] {
  const { panel, space, termination } = place;
  const inPanel = terminations.filter((t) => t.panel === panel);
  const own = inPanel.find((t) => t.id === termination);
  if (own) return inPanel.filter((t) => t.line === own.line);
  if (space === undefined) return inPanel;
  const lines = new Set(inPanel.filter((t) => t.space === space).map((t) => t.line));
  return inPanel.filter((t) => lines.has(t.line));
}

/**
 * Pairs terminations that nobody has spoken of with the conductors that are left, both in their order; colors play no
 * part. Terminations for which no conductor is left stay open.
 */
export function pairInOrder(
  terminations: readonly Termination[],
  conductors: readonly NamedConductor[],
  said: Pairs = {},
): Pairs {
  const taken = new Set(Object.values(said));
  const free = sideBySide(conductors).filter((c) => !taken.has(c.id));
  const open = terminations.filter((t) => said[t.id] === undefined);
  return Object.fromEntries(open.slice(0, free.length).map((t, k) => [t.id, free[k]?.id ?? '']));
}

/** What is kept of a pair: `how` only where nobody pointed. */
export const sightingOf = (photo: string, conductor: string, pointed: boolean, said: Said): Sighting => ({
  photo,
  conductor,
  ...(pointed ? {} : { how: 'by order' as const }),
  ...said,
});
