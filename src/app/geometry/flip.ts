import { type Crossing, type EndKind, type NamedConductor, nearestOnPolyline, type Point } from '../../flow';
import { conductorAt } from './hit';
import { bandAround, cutPolyline, pointAlong, polylineLength } from './polyline';

/** A crossing at which the user may say that the two conductors go on the other way. */
export interface CrossingChoice {
  readonly at: Point;
  /** The conductor met there. */
  readonly other: NamedConductor;
  /** Probability that they go on as traced. */
  readonly asTraced: number;
}

/** Crossings of one conductor that can be exchanged, least sure first. Edited conductors are met where they lie now. */
export function crossingChoices(
  conductor: NamedConductor,
  conductors: readonly NamedConductor[],
): readonly CrossingChoice[] {
  const others = conductors.filter((c) => c.id !== conductor.id);
  return conductor.crossings
    .flatMap(({ at, with: id, linkProbability }: Crossing): CrossingChoice[] => {
      const other = others.find((c) => c.id === id) ?? conductorAt(others, at, 0);
      return other && flipCrossing(conductor, other, at) ? [{ at, other, asTraced: linkProbability }] : [];
    })
    .sort((a, b) => a.asTraced - b.asTraced);
}

/** One side of a conductor at a crossing: from the far end to the crossing. */
interface Half {
  readonly whole: NamedConductor;
  readonly line: readonly Point[];
  readonly end: EndKind;
}

/**
 * The two conductors with their ends exchanged at a crossing, in the way that bends least; flipping the result at the
 * same place gives the first pairing again. Each has the color of its longer side until it is read again. Null when
 * one of them ends at the crossing.
 */
export function flipCrossing(
  first: NamedConductor,
  second: NamedConductor,
  at: Point,
): readonly [NamedConductor, NamedConductor] | null {
  const a = halves(first, at);
  const b = halves(second, at);
  if (!a || !b) return null;
  const straight = bend(a[0], b[0]) + bend(a[1], b[1]);
  const crossed = bend(a[0], b[1]) + bend(a[1], b[0]);
  const [c, d] = straight < crossed ? b : [b[1], b[0]];
  return [joined(a[0], c, first, second, at), joined(a[1], d, second, first, at)];
}

function halves(whole: NamedConductor, at: Point): readonly [Half, Half] | null {
  const near = nearestOnPolyline(whole.centerline, at);
  if (!near) return null;
  const [head, tail] = cutPolyline(whole.centerline, near.along);
  if (Math.min(polylineLength(head), polylineLength(tail)) < whole.widthPx) return null;
  return [
    { whole, line: head, end: whole.ends[0] },
    { whole, line: tail.toReversed(), end: whole.ends[1] },
  ];
}

/** Angle in radians by which a conductor turns that comes along one side and goes on along the other. */
function bend(p: Half, q: Half): number {
  const [px, py] = arriving(p);
  const [qx, qy] = arriving(q);
  return Math.acos(Math.max(-1, Math.min(1, -(px * qx + py * qy))));
}

/** Direction over the last four widths before the crossing. */
function arriving({ line, whole }: Half): Point {
  const [x, y] = pointAlong(line, polylineLength(line) - 4 * whole.widthPx);
  const [ex, ey] = line.at(-1)!;
  const size = Math.hypot(ex - x, ey - y) || 1;
  return [(ex - x) / size, (ey - y) / size];
}

function joined(p: Half, q: Half, named: NamedConductor, partner: NamedConductor, at: Point): NamedConductor {
  const longer = polylineLength(p.line) >= polylineLength(q.line) ? p.whole : q.whole;
  const { userWord: _, ...rest } = longer;
  const on = (line: readonly Point[], place: Point, within: number): boolean =>
    (nearestOnPolyline(line, place)?.distance ?? Number.POSITIVE_INFINITY) <= within;
  const kept = [p, q].flatMap(({ whole, line }) =>
    whole.crossings.filter(
      (c) => on(line, c.at, whole.widthPx) && Math.hypot(c.at[0] - at[0], c.at[1] - at[1]) > whole.widthPx,
    ),
  );
  const over = named.crossings.find((c) => c.with === partner.id)?.overProbability ?? 0.5;
  return {
    ...rest,
    id: `${named.id}x`,
    origin: 'drawn',
    centerline: [...p.line, ...q.line.toReversed()],
    outlines: [p, q].map(({ line, whole }) => bandAround(line, whole.widthPx)),
    ends: [p.end, q.end],
    // The user has said how it goes on here.
    crossings: [...kept, { at, with: `${partner.id}x`, overProbability: over, linkProbability: 1 }],
    tape: [p, q].flatMap(({ whole, line }) => whole.tape.filter((t) => on(line, t.at, whole.widthPx))),
  };
}
