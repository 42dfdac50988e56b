import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../../src/color/ribbon/cells';
import { fastArithmetic } from '../../../src/color/ribbon/kernel';
import { CELL_KINDS, readCells, readerInput, readerWeights } from '../../../src/color/ribbon/reader';
import { READER_SHAPES } from '../../../src/color/ribbon/reader-net';
import { plainArithmetic } from '../../../src/color/ribbon/reader-plain';
import { BESIDE, type FineRibbon, SAID } from '../../../src/flow';
import parity from './reader-parity.json';
import outerParity from './reader-parity-outer.json';
import wideParity from './reader-parity-wide.json';

const READERS = [
  ['narrow', parity],
  ['wide', wideParity],
  ['outer', outerParity],
] as const;

/** The fixture has what is said of a cell in one line: first how likely a conductor is, then the planes of SAID. */
const PLANES = 1 + SAID.length;
const wireOf = (all: readonly number[]) => Float32Array.from(all.filter((_, k) => k % PLANES === 0));
const saidOf = (all: readonly number[]) => Float32Array.from(all.filter((_, k) => k % PLANES > 0));

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
  wire: wireOf(parity.said),
  closer: () => ({
    said: saidOf(parity.said),
    beside: {
      rgb: Float32Array.from(parity.beside.rgb),
      usable: Uint8Array.from(parity.beside.usable),
      wire: wireOf(parity.beside.said),
      said: saidOf(parity.beside.said),
    },
  }),
  centers: Array.from({ length: parity.length }, (_, i) => [i, 0] as const),
  widths: new Float32Array(parity.length).fill(parity.widthPx),
});

const worst = (a: ArrayLike<number>, b: readonly number[]): number =>
  b.reduce((most, v, k) => Math.max(most, Math.abs(v - a[k]!)), 0);

const readBy = (fine: FineRibbon, by: Parameters<typeof readCells>[2]) => {
  const cells = cellsOf(fine);
  const shape = typeof by === 'string' ? READER_SHAPES[by] : by.weights.shape;
  return readCells(readerInput(fine, cells, shape), cells, by);
};

describe.each(READERS)('the %s reader in TypeScript', (name, said) => {
  it('says what PyTorch said of the same ribbon, cell by cell (made by models/training/ribbon/export.py)', () => {
    const fine = ribbon(said.rgb);
    const { kinds, layout } = readBy(fine, name);
    expect(kinds).toHaveLength(said.length * 12 * CELL_KINDS.length);
    expect(worst(kinds, said.kinds)).toBeLessThan(2e-3);
    expect(worst(layout, said.layout)).toBeLessThan(2e-2);
  });
  it('twin: with red and blue exchanged it says something else', () => {
    const fine = ribbon(said.rgb.map((_, k) => said.rgb[k - (k % 3) + (2 - (k % 3))]!));
    expect(worst(readBy(fine, name).kinds, said.kinds)).toBeGreaterThan(0.02);
  });
  it(`${name === 'outer' ? 'hears' : 'does not hear'} of what lies beside the conductor`, () => {
    const fine = ribbon(said.rgb);
    const { beside, said: own } = fine.closer!();
    const nothing = { rgb: beside.rgb.map(() => 0), usable: beside.usable.map(() => 0), wire: null, said: null };
    const alone = { ...fine, closer: () => ({ said: own, beside: nothing }) };
    const change = worst(readBy(alone, name).kinds, said.kinds);
    if (name === 'outer') expect(change).toBeGreaterThan(0.02);
    else expect(change).toBeLessThan(2e-3);
  });
});

describe.each(READERS)('what the segmentation says besides whether a conductor is there', (name, made) => {
  it(`is ${name === 'outer' ? 'heard' : 'not heard'} by the ${name} reader`, () => {
    const fine = ribbon(made.rgb);
    const { beside } = fine.closer!();
    const quiet = { ...fine, closer: () => ({ said: null, beside: { ...beside, said: null } }) };
    const change = worst(readBy(quiet, name).kinds, made.kinds);
    if (name === 'outer') expect(change).toBeGreaterThan(0.02);
    else expect(change).toBeLessThan(2e-3);
  });
});

describe.each(READERS)('the kernel of the %s reader', (name) => {
  const weights = readerWeights(name);
  const fast = fastArithmetic(weights);
  /** The first rows of the ribbon, or all. */
  const cut = (rows: number): FineRibbon => {
    const fine = ribbon(parity.rgb);
    const { said, beside } = fine.closer!();
    return {
      ...fine,
      length: rows,
      closer: () => ({
        said: said?.subarray(0, rows * 12 * SAID.length) ?? null,
        beside: {
          rgb: beside.rgb.subarray(0, rows * 6 * BESIDE),
          usable: beside.usable.subarray(0, rows * 2 * BESIDE),
          wire: beside.wire?.subarray(0, rows * 2 * BESIDE) ?? null,
          said: beside.said?.subarray(0, rows * 2 * BESIDE * SAID.length) ?? null,
        },
      }),
      rgb: fine.rgb.subarray(0, rows * 36),
      usable: fine.usable.subarray(0, rows * 12),
      seen: fine.seen.subarray(0, rows),
      wire: fine.wire?.subarray(0, rows * 12) ?? null,
      centers: fine.centers.slice(0, rows),
      widths: fine.widths.subarray(0, rows),
    };
  };
  const read = (fine: FineRibbon, arithmetic: ReturnType<typeof plainArithmetic>, w = weights) =>
    readBy(fine, { weights: w, arithmetic });

  it('says what the plain loops say, whatever the length, also after a longer ribbon', () => {
    if (!fast) throw new Error('WebAssembly with vectors must be there in Node');
    for (const rows of [parity.length, 1, 2, 3, 17, parity.length - 1]) {
      const fine = cut(rows);
      const one = read(fine, fast);
      const other = read(fine, plainArithmetic(weights));
      expect(worst(one.kinds, Array.from(other.kinds))).toBeLessThan(1e-4);
      expect(worst(one.layout, other.layout)).toBeLessThan(1e-3);
    }
  });
  it('twin: with one block of weights in another place they differ', () => {
    const turned = { ...weights, depth: [...weights.depth].reverse() };
    const fine = cut(parity.length);
    const other = read(fine, plainArithmetic(turned));
    expect(fast && worst(read(fine, fast).kinds, Array.from(other.kinds))).toBeGreaterThan(0.01);
  });
});
