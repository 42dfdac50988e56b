import type { FineRibbon, Point } from '../../flow';
import { angleDeg, type LogRatio } from './statistics';

/** Blocks that a conductor is cut into, and cells a block needs. */
const BLOCKS = 12;
const CELLS = 4;
/** A channel darker than this (linear) says nothing of ratios: flare and rounding are as large. */
const DARK = 0.004;
/** Share of the width that is looked at: rims reflect what stands beside. */
const CORE = 0.45;
/** Conductors needed, and how much of the longest conductor's reach along the axis each must have. Assumed. */
const LEAST = { conductors: 3, blocks: 6, reach: 0.4 } as const;
/**
 * Fading, dirt, glints and neighbors change a conductor along its length, but not all conductors alike: standard error of
 * the change over the whole reach in one conductor, at the least (assumed), and in how many standard errors of their
 * median the common change must lie. At 4, under 1 % of the simulated pictures of one lamp seem to have two, and 71 % of
 * those of two do where all conductors are long (models/palette/make_pictures.py).
 */
const OWN = 0.1;
const STRONG = 4;

interface Block {
  readonly at: Point;
  readonly ratio: LogRatio;
}

function blocksOf(fine: FineRibbon): Block[] {
  const { length, across, rgb, usable, centers } = fine;
  const middle = (across - 1) / 2;
  const reach = (CORE * across) / 2;
  const rows = Math.max(1, length / BLOCKS);
  const blocks: Block[] = [];
  for (let from = 0; from < length - rows / 2; from += rows) {
    const sum = [0, 0, 0];
    let n = 0;
    const to = Math.min(length, Math.floor(from + rows));
    for (let i = Math.floor(from); i < to; i++)
      for (let j = 0; j < across; j++) {
        const cell = i * across + j;
        if (Math.abs(j - middle) > reach || !usable[cell]) continue;
        for (let c = 0; c < 3; c++) sum[c]! += rgb[cell * 3 + c]!;
        n++;
      }
    const [r, g, b] = sum.map((v) => v / n) as [number, number, number];
    const at = centers[Math.floor((Math.floor(from) + to) / 2)];
    if (at && n >= CELLS && Math.min(r, g, b) >= DARK) blocks.push({ at, ratio: [Math.log(r / g), Math.log(b / g)] });
  }
  return blocks;
}

const medianOf = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return (sorted[Math.floor(half)]! + sorted[Math.ceil(half) - 1]!) / 2;
};

const reachOf = (blocks: readonly Block[], axis: 0 | 1): number => {
  const at = blocks.map((b) => b.at[axis]);
  return Math.max(...at) - Math.min(...at);
};

/** Change of the log ratios per pixel along an axis, least squares in one conductor. */
function slopeOf(blocks: readonly Block[], axis: 0 | 1): LogRatio {
  const mean = (of: (b: Block) => number): number => blocks.reduce((sum, b) => sum + of(b), 0) / blocks.length;
  const middle = mean((b) => b.at[axis]);
  const square = mean((b) => (b.at[axis] - middle) ** 2);
  return [0, 1].map((k) => mean((b) => (b.at[axis] - middle) * b.ratio[k]!) / square) as unknown as LogRatio;
}

/**
 * How far the light changes over a photo, degrees, told by its conductors: each is of one color from end to end, whatever
 * the color is, so what changes along all of them alike is the light. 0 where no change is strong against what conductors
 * have of their own; null where too few are long enough to tell. Order does not matter.
 */
export function lightChangeDeg(fines: readonly (FineRibbon | null)[]): number | null {
  const all = fines.flatMap((fine) => (fine ? [blocksOf(fine)] : [])).filter((b) => b.length >= LEAST.blocks);
  const changes = ([0, 1] as const).flatMap((axis) => {
    const longest = Math.max(0, ...all.map((b) => reachOf(b, axis)));
    const long = all.filter((b) => reachOf(b, axis) >= LEAST.reach * longest);
    if (long.length < LEAST.conductors || longest === 0) return [];
    const slopes = long.map((b) => slopeOf(b, axis));
    const change = ([0, 1] as const).map((k) => longest * medianOf(slopes.map((s) => s[k]))) as unknown as LogRatio;
    const errors = ([0, 1] as const).map((k) => {
      const spread = 1.48 * medianOf(slopes.map((s) => Math.abs(longest * s[k] - change[k])));
      // Standard error of a median of Gaussian values: 1.25 times that of their mean.
      return (1.25 * Math.max(spread, OWN)) / Math.sqrt(slopes.length);
    });
    const strength = Math.hypot(change[0] / errors[0]!, change[1] / errors[1]!);
    // Lamps differ along the daylight locus, red against blue; a board that mirrors on all conductors does not.
    const isLamp = strength >= STRONG && change[0] * change[1] < 0;
    return [isLamp ? angleDeg([0, 0], change) : 0];
  });
  return changes.length === 0 ? null : Math.max(...changes);
}
