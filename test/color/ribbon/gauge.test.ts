import { describe, expect, it } from 'vitest';
import {
  areaMm2,
  diameterBy,
  isWireSize,
  KNOWN_LENGTHS,
  METRIC_SIZES,
  sizeRange,
  sizesBeside,
  sizesByLength,
  WIRE_SIZES,
} from '../../../src/color';
import { awgDiameterMm, awgNumber, outerDiameterMm } from '../../../src/color/ribbon/gauge';
import published from '../../published/awg-od.json';

const row = (size: string) => published.sizes.find((s) => s.size === size)!;

describe('sizes of building wire', () => {
  it.each(WIRE_SIZES)('%s: outside diameter as in NEC chapter 9 table 5 (status: read, secondary text)', (size) => {
    expect(outerDiameterMm(size)).toBeCloseTo(row(size).THHN_THWN2_od_mm, 3);
  });
  it.each(WIRE_SIZES)('%s: solid diameter by the rule of ASTM B258 as printed', (size) => {
    expect(awgDiameterMm(awgNumber(size))).toBeCloseTo(row(size).bare_solid_copper_mm!, 2);
  });
  it('ends of the scale as ASTM B258 defines them: 36 AWG 0.005 in, 4/0 0.46 in', () => {
    expect(awgDiameterMm(36)).toBeCloseTo(0.127, 6);
    expect(awgDiameterMm(awgNumber('4/0 AWG'))).toBeCloseTo(0.46 * 25.4, 3);
  });
  it('twin: one number off is 12 % off', () => {
    expect(awgDiameterMm(13) / awgDiameterMm(12)).toBeLessThan(0.9);
  });
});

describe('cross sections', () => {
  it('are those of NEC chapter 9 table 8, mm² (from memory)', () => {
    const table = [
      ['14 AWG', 2.08],
      ['12 AWG', 3.31],
      ['10 AWG', 5.261],
      ['8 AWG', 8.367],
      ['6 AWG', 13.3],
      ['1/0 AWG', 53.49],
      ['4/0 AWG', 107.2],
    ] as const;
    for (const [size, area] of table) expect(areaMm2(size) / area).toBeCloseTo(1, 2);
  });
  it('of metric sizes are what they are called by (IEC 60228)', () => {
    expect(METRIC_SIZES.map(areaMm2)).toEqual([1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95]);
  });
  it('twin: a number too thick is a quarter more', () => {
    expect(areaMm2('12 AWG') / areaMm2('14 AWG')).toBeGreaterThan(1.5);
  });
});

describe('a range of sizes', () => {
  const beside = (widthPx: number) => sizesBeside({ size: '12 AWG', widthPx: 33 }, widthPx);
  it('holds the true size in at least as many cases as asked for, from thin to thick', () => {
    const candidates = beside(41.7);
    const { from, to, probability } = sizeRange(candidates)!;
    expect(probability).toBeGreaterThanOrEqual(0.9);
    expect(outerDiameterMm(from)).toBeLessThanOrEqual(outerDiameterMm(to));
    expect(outerDiameterMm(from)).toBeLessThanOrEqual(outerDiameterMm('10 AWG'));
    expect(outerDiameterMm(to)).toBeGreaterThanOrEqual(outerDiameterMm('10 AWG'));
  });
  it('is wider the surer it must be, and none of nothing', () => {
    const sizes = (share: number) => {
      const { from, to } = sizeRange(beside(41.7), share)!;
      return outerDiameterMm(to) - outerDiameterMm(from);
    };
    expect(sizes(0.97)).toBeGreaterThan(sizes(0.4));
    expect(sizeRange([])).toBeNull();
  });
  it('beside a metric conductor sizes are metric', () => {
    const found = sizesBeside({ size: '2.5 mm²', widthPx: 36 }, 61);
    expect(found[0]!.size).toBe('10 mm²');
    expect(found.every(({ size }) => size.endsWith('mm²'))).toBe(true);
    expect(beside(41.7).every(({ size }) => size.endsWith('AWG'))).toBe(true);
  });
});

describe('the name of a size', () => {
  it('is told from everything else that a record may hold', () => {
    for (const size of [...WIRE_SIZES, ...METRIC_SIZES]) expect(isWireSize(size)).toBe(true);
    for (const other of ['13 AWG', '3 mm²', '12', 12, null, undefined, {}, ['12 AWG']])
      expect(isWireSize(other)).toBe(false);
  });
});

describe('size beside a known conductor', () => {
  it('is none where a width is no number that a conductor can have', () => {
    expect(sizesBeside({ size: '12 AWG', widthPx: 33 }, Number.NaN)).toEqual([]);
    expect(sizesBeside({ size: '12 AWG', widthPx: 0 }, 20)).toEqual([]);
  });

  it('the right size leads when widths are as the table says, and its neighbors stay open', () => {
    const found = sizesBeside({ size: '12 AWG', widthPx: 33 }, 54.9);
    expect(found[0]!.size).toBe('8 AWG');
    expect(found[0]!.probability).toBeLessThan(0.95);
    expect(found.map((c) => c.size)).toContain('6 AWG');
  });
  it('is not sure between sizes that differ by 9 %', () => {
    const [first] = sizesBeside({ size: '3 AWG', widthPx: 60 }, 60);
    expect(first!.probability).toBeLessThan(0.6);
  });
  it('says less of thin conductors', () => {
    const wide = sizesBeside({ size: '12 AWG', widthPx: 33 }, 54.9)[0]!.probability;
    const thin = sizesBeside({ size: '12 AWG', widthPx: 4 }, 6.65)[0]!.probability;
    expect(thin).toBeLessThan(wide);
  });
  it('twin: half the width is another size', () => {
    expect(sizesBeside({ size: '12 AWG', widthPx: 33 }, 27.5)[0]!.size).not.toBe('8 AWG');
  });
  it('probabilities fall and sum to at most 1', () => {
    const all = sizesBeside({ size: '10 AWG', widthPx: 20 }, 31);
    expect(all.reduce((s, c) => s + c.probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
    expect([...all].sort((p, q) => q.probability - p.probability)).toEqual(all);
  });
});

describe('size by a known length', () => {
  // A rail of 35 mm (IEC 60715, from memory) over 280 px: 8 px are a millimeter.
  const RAIL = { mm: KNOWN_LENGTHS.rail, px: 280 };
  const widthOf = (size: (typeof WIRE_SIZES)[number] | (typeof METRIC_SIZES)[number]): number =>
    8 * outerDiameterMm(size);

  it.each([...WIRE_SIZES, ...METRIC_SIZES])('%s as wide as the table says leads, and is not certain', (size) => {
    const sizes = size.endsWith('AWG') ? WIRE_SIZES : METRIC_SIZES;
    const found = sizesByLength(RAIL, widthOf(size), sizes);
    expect(found[0]!.size).toBe(size);
    expect(found[0]!.probability).toBeLessThan(0.95);
    expect(diameterBy(RAIL, widthOf(size))!.mm).toBeCloseTo(outerDiameterMm(size), 9);
  });

  it('twin: a length twice as long as was said makes another size', () => {
    expect(sizesByLength({ ...RAIL, mm: 70 }, widthOf('12 AWG'), WIRE_SIZES)[0]!.size).not.toBe('12 AWG');
  });

  it('says less by a short length, whose ends are touched less exactly, and never more than depth and tilt allow', () => {
    const error = (px: number): number => diameterBy({ mm: 35, px }, 40)!.error;
    expect(error(20)).toBeGreaterThan(error(280));
    expect(error(1e9)).toBeGreaterThan(0.1);
  });

  it('a conductor thinner or thicker than every size of the list is none of them', () => {
    expect(sizesByLength(RAIL, 8 * 1.2, WIRE_SIZES)).toEqual([]);
    expect(sizesByLength(RAIL, 8 * 30, METRIC_SIZES)).toEqual([]);
    expect(sizesBeside({ size: '12 AWG', widthPx: 33 }, 12)).toEqual([]);
    // Twin: a little thinner than the thinnest may be it.
    expect(sizesByLength(RAIL, 8 * 2.5, WIRE_SIZES)[0]!.size).toBe('14 AWG');
  });

  it('is none where a width or length is no positive number', () => {
    for (const [mm, px, width] of [
      [35, 0, 40],
      [0, 280, 40],
      [35, 280, 0],
      [35, 280, Number.NaN],
      [-35, 280, 40],
    ] as const) {
      expect(diameterBy({ mm, px }, width)).toBeNull();
      expect(sizesByLength({ mm, px }, width, WIRE_SIZES)).toEqual([]);
    }
  });
});
