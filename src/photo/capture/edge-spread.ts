import { quantile } from './luma';

/** A luma step must be this tall, in levels of 255, to count as an edge. */
const MIN_STEP = 40;
/** Ends of a step: where the slope falls below this share of its steepest. */
const FLAT = 0.08;
/** Longest half of a step followed, pixels. */
const REACH = 16;
/** Fewer edges than this say nothing of the focus. */
const MIN_EDGES = 60;
/** Soft shading is an edge too; the sharpest fifth tells of the lens. */
const SHARPEST = 0.2;

/** Inverse of the error function on (-1, 1), Winitzki's approximation (relative error below 0.004). */
function inverseErf(x: number): number {
  const a = 0.147;
  const log = Math.log(1 - x * x);
  const t = 2 / (Math.PI * a) + log / 2;
  return Math.sign(x) * Math.sqrt(Math.sqrt(t * t - log / a) - t);
}

/**
 * Blur of a step whose steepest pixel-to-pixel difference is `share` of its height: a Gaussian step of
 * standard deviation s has share = erf(1 / (2 s sqrt 2)). A step between two pixels (share 1) gives 0.
 */
const spreadOf = (share: number): number => (share >= 0.999 ? 0.15 : 1 / (2 * Math.SQRT2 * inverseErf(share)));

/** Spreads of the edges met along every `every`-th line of pixels (`count` pixels, `step` apart). */
function alongLines(
  plane: Float32Array,
  lines: { starts: number; between: number; count: number; step: number; every: number },
  noise: number,
): number[] {
  const spreads: number[] = [];
  const diffs = new Float32Array(lines.count);
  const minStep = MIN_STEP + 4 * noise;
  for (let line = 0; line < lines.starts; line += lines.every) {
    const base = line * lines.between;
    for (let i = 0, at = base; i + 1 < lines.count; i++, at += lines.step)
      diffs[i] = (plane[at + lines.step] as number) - (plane[at] as number);
    for (let i = 1; i + 2 < lines.count; i++) {
      const d = diffs[i] as number;
      const size = Math.abs(d);
      if (size < 4 || size < Math.abs(diffs[i - 1] as number) || size <= Math.abs(diffs[i + 1] as number)) continue;
      const sign = Math.sign(d);
      let height = size;
      for (let way = -1; way <= 1; way += 2) {
        for (let k = 1; k <= REACH; k++) {
          const at = i + way * k;
          if (at < 0 || at + 1 >= lines.count) break;
          const rise = sign * (diffs[at] as number);
          if (rise < FLAT * size) break;
          height += rise;
        }
      }
      if (height >= minStep) spreads.push(spreadOf(size / height));
    }
  }
  return spreads;
}

/**
 * Blur of a picture as the standard deviation of its edge spread, in pixels: the sharpest fifth of all tall
 * luma steps met along rows and along columns. Where both directions have many edges the softer one counts,
 * which shows motion. NaN when there are too few edges to say. Steps cut across at a slant look wider, so the
 * figure errs to the soft side. Valid from about 0.4 to 5 pixels.
 */
export function edgeSpread(plane: Float32Array, width: number, height: number, noise = 0): number {
  const every = Math.max(1, Math.floor(Math.max(width, height) / 300));
  const rows = alongLines(plane, { starts: height, between: width, count: width, step: 1, every }, noise);
  const columns = alongLines(plane, { starts: width, between: 1, count: height, step: width, every }, noise);
  const enough = [rows, columns].filter((s) => s.length >= MIN_EDGES);
  if (enough.length === 0) return Number.NaN;
  const most = Math.max(...enough.map((s) => s.length));
  return Math.max(...enough.filter((s) => s.length >= most / 3).map((s) => quantile(s, SHARPEST)));
}
