import { describe, expect, it } from 'vitest';
import { recalibrated } from '../../src/identify/explain/recalibrate';

const ROLES = [
  { system: 'us-120-240-1ph', role: 'line 1', probability: 0.6 },
  { system: 'us-120-240-1ph', role: 'line 2', probability: 0.3 },
] as const;
const top = (riders: number, roles: Parameters<typeof recalibrated>[0] = ROLES): number =>
  recalibrated(roles, riders)[0]?.probability ?? 0;

describe('recalibration', () => {
  it('sharpens nothing where switch legs or control may ride along: any color may be one', () => {
    expect(top(0.4)).toBeCloseTo(0.6, 9);
    // Twin: without them the likeliest role is lifted.
    expect(top(0)).toBeGreaterThan(0.61);
  });

  it('takes a black of two-wire cable for line 1 or line 2 like a coin, and surer of being either', () => {
    const coin = [
      { ...ROLES[0], probability: 0.36 },
      { ...ROLES[1], probability: 0.34 },
      { system: 'us-208y120', role: 'phase A', probability: 0.25 },
    ] as const;
    const [first] = recalibrated(coin, 0);
    expect(first!.probability).toBeGreaterThan(0.4);
    expect(first!.probability).toBeLessThan(0.5);
    // Twin: a role whose rivals are of other kinds is lifted much further.
    const company = [{ ...ROLES[0], probability: 0.7 }, { ...coin[2] }] as const;
    expect(recalibrated(company, 0)[0]!.probability).toBeGreaterThan(0.8);
  });

  it('loses no rare role: what the likeliest gains is taken from all others in proportion', () => {
    const rare = [
      { ...ROLES[0], probability: 0.6 },
      { system: 'us-208y120', role: 'phase A', probability: 0.2 },
      { system: 'us-isolated-power', role: 'isolated conductor 1', probability: 0.04 },
    ] as const;
    const [, phase, isolated] = recalibrated(rare, 0);
    expect(phase!.probability / isolated!.probability).toBeCloseTo(5, 9);
  });

  it('never lifts a role across 0.9, and keeps the order of the roles', () => {
    for (const p of [0.5, 0.7, 0.85, 0.899])
      expect(
        top(0, [
          { ...ROLES[0], probability: p },
          { ...ROLES[1], probability: 0.05 },
        ]),
      ).toBeLessThanOrEqual(0.9);
    const after = recalibrated(ROLES, 0).map((r) => r.role);
    expect(after).toEqual(['line 1', 'line 2']);
  });

  it('never promises more than there is, whatever the top role and whatever may ride along', () => {
    for (const riders of [0, 0.05, 0.2, 0.9])
      for (const p of [0.5, 0.88, 0.91, 0.93, 0.96]) {
        const parts = [
          { ...ROLES[0], probability: p },
          { ...ROLES[1], probability: 0.975 - p },
        ];
        const sum = recalibrated(parts, riders).reduce((total, r) => total + r.probability, 0);
        expect(sum).toBeLessThanOrEqual(1);
      }
  });
});
