import { type NamedConductor, nearestOnPolyline, type Point } from '../../flow';
import { bandAround, cutPolyline, polylineLength } from './polyline';

/**
 * Two conductors out of one, cut at the place nearest to `at`. Colors are those of the whole until they are read
 * again. Null when a part would be shorter than it is wide, which cannot be read.
 */
export function splitConductor(conductor: NamedConductor, at: Point): readonly [NamedConductor, NamedConductor] | null {
  const near = nearestOnPolyline(conductor.centerline, at);
  if (!near) return null;
  const [head, tail] = cutPolyline(conductor.centerline, near.along);
  const least = conductor.widthPx;
  if (polylineLength(head) < least || polylineLength(tail) < least) return null;
  return [
    part(conductor, head, 'a', [conductor.ends[0], 'unknown']),
    part(conductor, tail, 'b', ['unknown', conductor.ends[1]]),
  ];
}

function part(
  whole: NamedConductor,
  centerline: readonly Point[],
  suffix: string,
  ends: NamedConductor['ends'],
): NamedConductor {
  // Where things lie along it was told of the whole: the parts are read again.
  const { userWord: _, along: __, ...rest } = whole;
  const near = (p: Point): boolean => (nearestOnPolyline(centerline, p)?.distance ?? Infinity) <= whole.widthPx;
  return {
    ...rest,
    id: `${whole.id}${suffix}`,
    origin: 'drawn',
    centerline,
    outlines: [bandAround(centerline, whole.widthPx)],
    ends,
    crossings: whole.crossings.filter((c) => near(c.at)),
    tape: whole.tape.filter((t) => near(t.at)).map(({ stretch: _, ...tape }) => tape),
  };
}
