import { describe, expect, it } from 'vitest';
import { phasorDiagram } from '../../src/verify';

describe('phasor diagram', () => {
  it('draws the high leg to scale: every side 240 V, the high leg 207.85 V from ground', () => {
    const diagram = phasorDiagram('us-240-120-high-leg');
    const place = (role: string): number => diagram?.points.findIndex((p) => p.roles.some((r) => r === role)) ?? -1;
    const length = (a: string, b: string): number | undefined =>
      diagram?.edges.find((e) => [e.from, e.to].sort().join() === [place(a), place(b)].sort().join())?.volts;
    expect(length('phase A', 'phase C')).toBeCloseTo(240, 9);
    expect(length('phase A', 'high leg')).toBeCloseTo(240, 9);
    expect(length('high leg', 'ground')).toBeCloseTo(207.846, 3);
    expect(place('grounded conductor')).toBe(place('ground'));
  });

  it('joins points of one potential and keeps everything within its reach', () => {
    const diagram = phasorDiagram('us-480y277');
    expect(diagram?.points).toHaveLength(4);
    expect(diagram?.reach).toBeCloseTo(277.13, 2);
    for (const p of diagram?.points ?? [])
      expect(Math.hypot(p.x, p.y)).toBeLessThanOrEqual((diagram?.reach ?? 0) + 1e-9);
  });

  it('says that ground is loose where nothing is bonded, and puts it in the middle', () => {
    const diagram = phasorDiagram('us-isolated-power');
    expect(diagram?.floating).toBe(true);
    expect(phasorDiagram('us-208y120')?.floating).toBe(false);
    const xs = diagram?.points.map((p) => Math.abs(p.x)) ?? [];
    expect(Math.max(...xs)).toBeCloseTo(60, 9);
  });

  it('has nothing to draw for an unknown system', () => {
    expect(phasorDiagram('no-such-system')).toBeNull();
  });
});
