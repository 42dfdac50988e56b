import { LINEAR_OF_LEVEL } from '../../../src/color';
import type { Raster, Ribbon } from '../../../src/flow';

/**
 * A stand-in for tracing, for measuring the color room alone: direction from the structure tensor round a point, edges
 * by walking across until the color leaves the center's, then a straight patch along. Never part of the product.
 */
export function crudeRibbon(raster: Raster, px: number, py: number, noise = 0.01): Ribbon {
  const { width, height } = raster;
  const at = (x: number, y: number, c: number): number => {
    const cx = Math.min(width - 1, Math.max(0, x));
    const cy = Math.min(height - 1, Math.max(0, y));
    const x0 = Math.min(width - 2, Math.floor(cx));
    const y0 = Math.min(height - 2, Math.floor(cy));
    const fx = cx - x0;
    const fy = cy - y0;
    const l = (i: number, j: number) => LINEAR_OF_LEVEL[raster.data[((y0 + j) * width + x0 + i) * 4 + c]!]!;
    return (l(0, 0) * (1 - fx) + l(1, 0) * fx) * (1 - fy) + (l(0, 1) * (1 - fx) + l(1, 1) * fx) * fy;
  };
  const root = (x: number, y: number, c: number) => Math.cbrt(at(x, y, c) + 0.001);
  // Direction: for each of 24 angles, how alike are the profiles across at three places along?
  let best = { cost: Infinity, angle: 0, left: 3, right: 3 };
  for (let k = 0; k < 24; k++) {
    const angle = (k * Math.PI) / 24;
    const dx = Math.cos(angle);
    const dy = Math.sin(angle);
    let cost = 0;
    let n = 0;
    for (let w = -14; w <= 14; w++) {
      for (const s of [-10, -5, 5, 10]) {
        for (let c = 0; c < 3; c++) {
          const here = root(px - dy * w, py + dx * w, c);
          const there = root(px + dx * s - dy * w, py + dy * s + dx * w, c);
          cost += Math.abs(here - there);
          n++;
        }
      }
    }
    if (cost / n < best.cost) best = { ...best, cost: cost / n, angle };
  }
  const dx = Math.cos(best.angle);
  const dy = Math.sin(best.angle);
  // Profile across, averaged along; the edge is where the color differs most sharply from the center's.
  const reach = 40;
  const profile = (w: number): number[] =>
    [0, 1, 2].map(
      (c) => [-4, -2, 0, 2, 4].reduce((sum, s) => sum + root(px + dx * s - dy * w, py + dy * s + dx * w, c), 0) / 5,
    );
  const edge = (sign: number): number => {
    const center = profile(0);
    let previous = center;
    for (let w = 1; w < reach; w++) {
      const now = profile(sign * w);
      const step = Math.hypot(...now.map((v, c) => v - previous[c]!));
      const off = Math.hypot(...now.map((v, c) => v - center[c]!));
      if (off > 0.16 && step > 0.03) return w - 0.5;
      previous = now;
    }
    return reach;
  };
  let left = edge(-1);
  let right = edge(1);
  if (left === reach && right === reach) left = right = 8;
  left = Math.min(left, 2 * right + 6);
  right = Math.min(right, 2 * left + 6);
  const widthPx = Math.max(2, left + right);
  const offset = (right - left) / 2;
  const across = Math.max(3, Math.min(24, Math.round(widthPx)));
  const length = 21;
  const stepPx = 1;
  const rgb = new Float32Array(length * across * 3);
  const usable = new Uint8Array(length * across);
  for (let i = 0; i < length; i++) {
    for (let j = 0; j < across; j++) {
      const w = offset + ((j + 0.5) / across - 0.5) * widthPx;
      const s = (i - (length - 1) / 2) * stepPx;
      const x = px + dx * s - dy * w;
      const y = py + dy * s + dx * w;
      const inside = x >= 0 && y >= 0 && x < width && y < height;
      let top = 0;
      for (let c = 0; c < 3; c++) {
        const v = at(x, y, c);
        rgb[(i * across + j) * 3 + c] = v;
        top = Math.max(top, v);
      }
      usable[i * across + j] = inside && top < 0.96 ? 1 : 0;
    }
  }
  return { length, across, stepPx, widthPx, rgb, usable, noise, blurPx: 1 };
}
