import type { NamedConductor } from '../../flow';
import { joinPolylines, polylineLength } from './polyline';

/** One conductor out of two lengths of it. Its color is that of the longer until it is read again. */
export function joinConductors(a: NamedConductor, b: NamedConductor): NamedConductor {
  const longer = polylineLength(a.centerline) >= polylineLength(b.centerline) ? a : b;
  const { userWord: _, along: __, ...rest } = longer;
  return {
    ...rest,
    id: `${a.id}+${b.id}`,
    origin: 'drawn',
    presence: Math.max(a.presence, b.presence),
    centerline: joinPolylines(a.centerline, b.centerline),
    outlines: [...a.outlines, ...b.outlines],
    ends: ['unknown', 'unknown'],
    crossings: [...a.crossings, ...b.crossings].filter((c) => c.with !== a.id && c.with !== b.id),
    tape: [...a.tape, ...b.tape].map(({ stretch: _, ...tape }) => tape),
  };
}
