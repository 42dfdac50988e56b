import { describe, expect, it } from 'vitest';
import type { Role } from '../../src/flow';
import { SYSTEMS } from '../../src/identify';
import { expectedVoltage, modelOf } from '../../src/verify';
import published from '../published/nominal-voltages.json';

type End = Role | 'ground';

/** Rounding of names: 600/sqrt(3) = 346.41 is called 347, 230 x sqrt(3) = 398.37 is called 400. */
const NAME = 0.005;

describe('nominal voltages', () => {
  const read = published.nominal.filter((row) => row.status === 'read');
  const remembered = published.nominal.filter((row) => row.status !== 'read');

  it.each(read)('$system $between = $volts V (read: $source)', ({ system, between, volts, exact }) => {
    const found = expectedVoltage(system, between[0] as End, between[1] as End);
    expect(found).not.toBeNull();
    expect(Math.abs((found?.nominal ?? Number.NaN) - volts)).toBeLessThanOrEqual(Math.max(volts * NAME, 1e-9));
    if (exact !== undefined) expect(found?.nominal).toBeCloseTo(exact, 2);
  });

  it.each(remembered)('$system $between = $volts V (from memory)', ({ system, between, volts }) => {
    const found = expectedVoltage(system, between[0] as End, between[1] as End);
    expect(found?.nominal).toBeCloseTo(volts, 6);
  });

  it('would notice a phasor set 10 degrees off', () => {
    // Twin: 120 V phasors 110 degrees apart make 196.6 V, which no published row allows.
    const wrong = 2 * 120 * Math.sin((110 / 2) * (Math.PI / 180));
    expect(Math.abs(wrong - 208)).toBeGreaterThan(208 * NAME);
  });
});

describe('worked examples', () => {
  const nominal = (system: string, a: End, b: End): number => expectedVoltage(system, a, b)?.nominal ?? Number.NaN;

  it('208 is 120 times the root of three', () => {
    expect(nominal('us-208y120', 'phase B', 'phase C')).toBeCloseTo(120 * Math.sqrt(3), 9);
  });

  it('the high leg stands root of 240 squared less 120 squared above the neutral, and 240 from both lines', () => {
    expect(nominal('us-240-120-high-leg', 'high leg', 'grounded conductor')).toBeCloseTo(
      Math.sqrt(240 ** 2 - 120 ** 2),
      9,
    );
    expect(nominal('us-240-120-high-leg', 'high leg', 'phase A')).toBeCloseTo(240, 9);
    expect(nominal('us-240-120-high-leg', 'high leg', 'phase C')).toBeCloseTo(240, 9);
    expect(nominal('us-240-120-high-leg', 'phase A', 'phase C')).toBeCloseTo(240, 9);
  });

  it('277 comes from 480, not the other way round', () => {
    expect(nominal('us-480y277', 'phase A', 'phase B')).toBeCloseTo(480, 9);
    expect(nominal('us-480y277', 'phase A', 'ground')).toBeCloseTo(480 / Math.sqrt(3), 9);
  });

  it('a corner-grounded delta reads full voltage from two corners to ground and nothing from the third', () => {
    expect(nominal('us-480-corner', 'phase A', 'ground')).toBeCloseTo(480, 9);
    expect(nominal('us-480-corner', 'phase C', 'ground')).toBeCloseTo(480, 9);
    expect(nominal('us-480-corner', 'grounded conductor', 'ground')).toBe(0);
  });

  it('isolated lines float: the band to ground is wide, the one between them is not', () => {
    const ground = expectedVoltage('us-isolated-power', 'isolated conductor 1', 'ground');
    const across = expectedVoltage('us-isolated-power', 'isolated conductor 1', 'isolated conductor 2');
    expect(ground?.nominal).toBeCloseTo(60, 9);
    expect(ground?.low).toBeLessThan(30);
    expect(ground?.high).toBeGreaterThan(90);
    expect(ground?.high).toBeLessThan(across?.low ?? 0);
    expect(across?.nominal).toBeCloseTo(120, 9);
  });

  it('has no voltage for a role that the system lacks, a system nobody knows, or DC of unknown volts', () => {
    expect(expectedVoltage('us-480-delta', 'phase A', 'grounded conductor')).toBeNull();
    expect(expectedVoltage('no-such-system', 'phase A', 'phase B')).toBeNull();
    expect(expectedVoltage('us-pv-dc', 'positive', 'negative')).toBeNull();
  });
});

describe('every system that identify knows', () => {
  it.each(Object.values(SYSTEMS))('$id: model and nameplate agree', (system) => {
    const model = modelOf(system.id);
    const { lineToLine, lineToNeutral } = system.nominal;
    if (system.kind === 'auxiliary' || system.kind === 'dc') return expect(system.nominal.lineToLine).toBeUndefined();
    const lines =
      model?.points.filter((p) => p.role !== 'grounded conductor' && p.role !== 'equipment grounding conductor') ?? [];
    const [a, b] = lines;
    expect(a).toBeDefined();
    if (lineToLine && a && b) {
      const found = expectedVoltage(system.id, a.role, b.role)?.nominal ?? 0;
      expect(Math.abs(found - lineToLine)).toBeLessThanOrEqual(lineToLine * NAME);
    }
    const normal = lines.find((p) => p.role !== 'high leg');
    if (lineToNeutral && normal) {
      const found = expectedVoltage(system.id, normal.role, 'grounded conductor')?.nominal ?? 0;
      expect(Math.abs(found - lineToNeutral)).toBeLessThanOrEqual(lineToNeutral * NAME);
    }
  });
});
