import type { Scores } from './planes';
import { SCORE_COUNT } from './planes';
import type { Window } from './sample';

/** A place to look at closely: `look` goes into the network, `keep` is what its answer is trusted for. */
export interface Tile {
  readonly look: Window;
  readonly keep: Window;
}

const KEEP = 384;
/** What the network must see around a pixel to judge it well. */
const MARGIN = 32;

/** Probability under which a pixel is no reason to look closer, and half width (coarse pixels) above which none is needed. */
const FAINT = 0.03;
const THICK = 5;

/**
 * Where a closer look pays: where the coarse look sees thin conductors or cannot decide, dearest tiles first, until
 * `budget` (pixels given to the network) is spent. A picture that fits whole is one tile.
 * @param multiple the network's input sizes must be multiples of this
 */
export function planTiles(coarse: Scores, width: number, height: number, budget: number, multiple: number): Tile[] {
  const whole = { x: 0, y: 0, width, height };
  if (width * height <= budget) return [{ look: whole, keep: whole }];
  const columns = Math.ceil(width / KEEP);
  const rows = Math.ceil(height / KEEP);
  const worth = new Float64Array(columns * rows);
  for (let y = 0; y < coarse.height; y++) {
    const row = Math.min(rows - 1, Math.floor(((y + 0.5) * height) / coarse.height / KEEP));
    for (let x = 0; x < coarse.width; x++) {
      const column = Math.min(columns - 1, Math.floor(((x + 0.5) * width) / coarse.width / KEEP));
      worth[row * columns + column]! += pixelWorth(coarse.full, (y * coarse.width + x) * SCORE_COUNT);
    }
  }
  const order = [...worth.keys()].filter((k) => worth[k]! > 4).sort((a, b) => worth[b]! - worth[a]! || a - b);
  const tiles: Tile[] = [];
  let spent = 0;
  for (const k of order) {
    const tile = tileAt(k % columns, Math.floor(k / columns), width, height, multiple);
    spent += tile.look.width * tile.look.height;
    if (spent > budget) break;
    tiles.push(tile);
  }
  return tiles;
}

function pixelWorth(full: Float32Array, at: number): number {
  const p = 1 / (1 + Math.exp(-full[at]!));
  if (p < FAINT) return 0;
  const doubt = 4 * p * (1 - p);
  const thin = Math.max(0, 1 - Math.exp(full[at + 4]!) / THICK);
  return doubt + p * thin;
}

function tileAt(column: number, row: number, width: number, height: number, multiple: number): Tile {
  const span = (index: number, limit: number): { from: number; size: number; lookFrom: number; lookSize: number } => {
    const from = index * KEEP;
    const size = Math.min(KEEP, limit - from);
    const wanted = Math.ceil((size + 2 * MARGIN) / multiple) * multiple;
    const lookSize = Math.min(limit, wanted);
    const lookFrom = Math.max(0, Math.min(limit - lookSize, from - MARGIN));
    return { from, size, lookFrom, lookSize };
  };
  const h = span(column, width);
  const v = span(row, height);
  return {
    look: { x: h.lookFrom, y: v.lookFrom, width: h.lookSize, height: v.lookSize },
    keep: { x: h.from, y: v.from, width: h.size, height: v.size },
  };
}
