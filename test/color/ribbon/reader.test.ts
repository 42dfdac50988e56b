import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../../src/color/ribbon/cells';
import { CELL_KINDS, readCells } from '../../../src/color/ribbon/reader';
import type { FineRibbon } from '../../../src/flow';
import parity from './reader-parity.json';

const ribbon = (rgb: readonly number[]): FineRibbon => ({
  length: parity.length,
  across: 12,
  stepPx: parity.widthPx / 12,
  widthPx: parity.widthPx,
  blurPx: 0.8,
  noise: 0.005,
  rgb: Float32Array.from(rgb),
  usable: Uint8Array.from(parity.usable),
  seen: new Uint8Array(parity.length).fill(1),
  wire: Float32Array.from(parity.wire),
  centers: Array.from({ length: parity.length }, (_, i) => [i, 0] as const),
});

const worst = (a: ArrayLike<number>, b: readonly number[]): number =>
  b.reduce((most, v, k) => Math.max(most, Math.abs(v - a[k]!)), 0);

describe('the reader in TypeScript', () => {
  it('says what PyTorch said of the same ribbon, cell by cell (made by models/training/ribbon/export.py)', () => {
    const fine = ribbon(parity.rgb);
    const { kinds, layout } = readCells(fine, cellsOf(fine));
    expect(kinds).toHaveLength(parity.length * 12 * CELL_KINDS.length);
    expect(worst(kinds, parity.kinds)).toBeLessThan(2e-3);
    expect(worst(layout, parity.layout)).toBeLessThan(2e-2);
  });
  it('twin: with red and blue exchanged it says something else', () => {
    const fine = ribbon(parity.rgb.map((_, k) => parity.rgb[k - (k % 3) + (2 - (k % 3))]!));
    expect(worst(readCells(fine, cellsOf(fine)).kinds, parity.kinds)).toBeGreaterThan(0.02);
  });
});
