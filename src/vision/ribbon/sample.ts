import { LINEAR_OF_LEVEL as LINEAR } from '../../color';
import type { Raster, Ribbon } from '../../flow';
import type { TracePoint } from '../trace/follow';

/** Slope of the sRGB decoding at mid gray (encoded 0.5): turns noise in code values into noise in linear light. */
const SLOPE_AT_MID = (2.4 / 1.055) * ((0.5 + 0.055) / 1.055) ** 1.4;

const ACROSS = 11;
const MOST_ALONG = 160;
/** A channel at or above this has lost its color. */
const CLIPPED = 252;

/** What the capture verdict measured and the ribbon passes on to naming. */
export interface RibbonQuality {
  /** Fine noise in sRGB levels, 0 to 255. */
  readonly noiseLevel: number;
  readonly blurPx: number;
}

/** Which steps of a trace a ribbon has a row of. */
export function rowsOf(points: readonly TracePoint[]): number[] {
  const thin = Math.max(1, Math.ceil(points.length / MOST_ALONG));
  return points.map((_, k) => k).filter((k) => k % thin === 0 && points[k]!.seen);
}

/**
 * Straightens the seen steps of a trace into a ribbon: one row a step (thinned to 160), 11 samples from rim to rim.
 * Bilinear in linear light; a sample that touches a clipped pixel or lies outside is not usable.
 */
export function sampleRibbon(raster: Raster, points: readonly TracePoint[], quality: RibbonQuality): Ribbon {
  const thin = Math.max(1, Math.ceil(points.length / MOST_ALONG));
  const rows = rowsOf(points);
  const rgb = new Float32Array(rows.length * ACROSS * 3);
  const usable = new Uint8Array(rows.length * ACROSS);
  let along = 0;
  rows.forEach((k, row) => {
    const a = points[Math.max(0, k - 1)]!.at;
    const b = points[Math.min(points.length - 1, k + 1)]!.at;
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    along += size / Math.max(1, Math.min(points.length - 1, k + 1) - Math.max(0, k - 1));
    const nx = -(b[1] - a[1]) / size;
    const ny = (b[0] - a[0]) / size;
    const { at, halfWidth } = points[k]!;
    for (let j = 0; j < ACROSS; j++) {
      const offset = ((2 * (j + 0.5)) / ACROSS - 1) * halfWidth;
      const cell = row * ACROSS + j;
      usable[cell] = readLinear(raster, at[0] + nx * offset, at[1] + ny * offset, rgb, cell * 3);
    }
  });
  const halves = rows.map((k) => points[k]!.halfWidth).sort((p, q) => p - q);
  return {
    length: rows.length,
    across: ACROSS,
    stepPx: rows.length ? (along / rows.length) * thin : 0,
    widthPx: 2 * (halves[halves.length >> 1] ?? 0),
    rgb,
    usable,
    noise: noiseInLight(quality),
    blurPx: quality.blurPx,
  };
}

/** Noise in linear light at mid gray. */
export const noiseInLight = ({ noiseLevel }: RibbonQuality): number => (noiseLevel / 255) * SLOPE_AT_MID;

/** Writes linear RGB at a place (pixel corners at whole numbers) and tells whether it can be relied on (1) or not (0). */
export function readLinear(raster: Raster, x: number, y: number, into: Float32Array, at: number): 0 | 1 {
  const cx = x - 0.5;
  const cy = y - 0.5;
  const x0 = Math.floor(cx);
  const y0 = Math.floor(cy);
  if (x0 < 0 || y0 < 0 || x0 + 1 >= raster.width || y0 + 1 >= raster.height) return 0;
  const fx = cx - x0;
  const fy = cy - y0;
  const p = (y0 * raster.width + x0) * 4;
  const row = raster.width * 4;
  const { data } = raster;
  let brightest = 0;
  for (let c = 0; c < 3; c++) {
    const a = data[p + c]!;
    const b = data[p + 4 + c]!;
    const d = data[p + row + c]!;
    const e = data[p + row + 4 + c]!;
    brightest = Math.max(brightest, a, b, d, e);
    into[at + c] =
      (LINEAR[a]! * (1 - fx) + LINEAR[b]! * fx) * (1 - fy) + (LINEAR[d]! * (1 - fx) + LINEAR[e]! * fx) * fy;
  }
  return brightest >= CLIPPED ? 0 : 1;
}
