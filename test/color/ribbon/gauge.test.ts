import { describe, expect, it } from 'vitest';
import { isWireSize, sizesBeside, WIRE_SIZES } from '../../../src/color';
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

describe('the name of a size', () => {
  it('is told from everything else that a record may hold', () => {
    for (const size of WIRE_SIZES) expect(isWireSize(size)).toBe(true);
    for (const other of ['13 AWG', '12', 12, null, undefined, {}, ['12 AWG']]) expect(isWireSize(other)).toBe(false);
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
