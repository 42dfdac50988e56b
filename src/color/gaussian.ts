/** Upper triangle, row by row, of a symmetric 3 x 3 matrix. */
export type Cov3 = readonly [xx: number, xy: number, xz: number, yy: number, yz: number, zz: number];
/** Upper triangle of a symmetric 2 x 2 matrix. */
export type Cov2 = readonly [xx: number, xy: number, yy: number];

const LN_2PI = Math.log(2 * Math.PI);

/** ln of a three-dimensional normal density at offset (dx, dy, dz) from its mean. */
export function logNormal3(dx: number, dy: number, dz: number, c: Cov3): number {
  const [xx, xy, xz, yy, yz, zz] = c;
  const a = yy * zz - yz * yz;
  const b = xz * yz - xy * zz;
  const d = xy * yz - xz * yy;
  const det = xx * a + xy * b + xz * d;
  const e = xx * zz - xz * xz;
  const f = xy * xz - xx * yz;
  const g = xx * yy - xy * xy;
  const q = (dx * dx * a + dy * dy * e + dz * dz * g + 2 * (dx * dy * b + dx * dz * d + dy * dz * f)) / det;
  return -0.5 * (q + Math.log(det) + 3 * LN_2PI);
}

/** ln of a two-dimensional normal density at offset (dx, dy) from its mean. */
export function logNormal2(dx: number, dy: number, c: Cov2): number {
  const [xx, xy, yy] = c;
  const det = xx * yy - xy * xy;
  return -0.5 * ((dx * dx * yy - 2 * dx * dy * xy + dy * dy * xx) / det + Math.log(det) + 2 * LN_2PI);
}

/** ln of the sum of the exponentials. */
export function logSum(values: ArrayLike<number>): number {
  let top = -Infinity;
  for (let i = 0; i < values.length; i++) if (values[i]! > top) top = values[i]!;
  if (top === -Infinity) return top;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.exp(values[i]! - top);
  return top + Math.log(sum);
}
