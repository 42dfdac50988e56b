import { COLOR_NAMES } from '../../flow';
import { type Field, inField } from './field';
import type { TracePoint } from './follow';

/** Where the log-probabilities over COLOR_NAMES of a pixel begin; their plane is half the working size. */
export const colorAt = (field: Field, x: number, y: number): number =>
  (Math.floor(y / 2) * Math.ceil(field.width / 2) + Math.floor(x / 2)) * COLOR_NAMES.length;

/**
 * Mean log-probability over COLOR_NAMES that the segmenter gave along the seen steps of a trace, or null where it reads no colors
 * or none of them lies in the picture.
 */
export function colorAlong(field: Field, points: readonly TracePoint[]): Float32Array | null {
  const { color } = field.planes;
  if (!color) return null;
  const sum = new Float32Array(COLOR_NAMES.length);
  let count = 0;
  for (const { at, seen } of points) {
    if (!seen || !inField(field, at[0], at[1])) continue;
    const from = colorAt(field, at[0], at[1]);
    for (let k = 0; k < sum.length; k++) sum[k]! += color[from + k]!;
    count++;
  }
  return count ? sum.map((v) => v / count) : null;
}
