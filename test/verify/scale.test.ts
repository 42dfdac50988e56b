import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge } from '../../src/verify';
import { mapOf, type Said } from './fixtures';
import { asClaimed } from './sim/honest';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const HIGH_LEG: readonly Said[] = [
  { id: 'a', system: 'us-240-120-high-leg', role: 'phase A' },
  { id: 'h', system: 'us-240-120-high-leg', role: 'high leg' },
  { id: 'c', system: 'us-240-120-high-leg', role: 'phase C' },
  { id: 'n', system: 'us-240-120-high-leg', role: 'grounded conductor' },
  { id: 'g', system: 'us-240-120-high-leg', role: 'equipment grounding conductor' },
];
const MAP = mapOf(HIGH_LEG);
const touches = (r: Reading, ...ids: readonly string[]): boolean =>
  ids.every((id) => [r.from, r.to].some((p) => (p.kind === 'conductor' ? p.conductor : p.kind) === id));

/**
 * Load current on the neutral lifts it by Ohm's law toward one line: that line reads less to it, the line at the other
 * end of the winding more, by the same volts (phasors a half turn apart; geometry, no source needed).
 */
const lifted = (volts: number, told: number): Reading[] =>
  asClaimed(MAP, OPTIONS, 0.98).map((r) => {
    const value = Number(r.value);
    if (touches(r, 'n', 'a')) return { ...r, value: value - volts };
    if (touches(r, 'n', 'c')) return { ...r, value: value + volts };
    return touches(r, 'n', 'ground') && r.function === 'AC volts' ? { ...r, value: told } : r;
  });
const standing = (readings: readonly Reading[], id: string): string | undefined =>
  judge(MAP, readings, OPTIONS).conductors.find((c) => c.conductor === id)?.standing;

describe('one supply level, with the drop along a loaded neutral', () => {
  it('a right map is proved though the two halves read 4.6 % apart, where the neutral itself was read 4 V up', () => {
    expect(standing(lifted(4, 4), 'n')).toBe('metered');
    expect(standing(lifted(4, 4), 'a')).toBe('metered');
  });

  it('is not where the neutral reads nothing to ground: then nothing explains the halves (twin)', () => {
    const verdict = judge(MAP, lifted(6, 0), OPTIONS);
    expect(verdict.conductors.find((c) => c.conductor === 'n')?.standing).toBe('disputed');
  });

  it('never leaves a dispute without an explanation', () => {
    for (const readings of [lifted(6, 0), lifted(12, 0)]) {
      const verdict = judge(MAP, readings, OPTIONS);
      expect(verdict.conductors.some((c) => c.standing === 'disputed')).toBe(true);
      expect(verdict.explanations.length).toBeGreaterThan(0);
    }
  });

  it('names the supply when one reading lies above ANSI C84.1 range B (127 V, from memory) and all else fits', () => {
    const high = asClaimed(MAP, OPTIONS, 1.05).map((r) => (touches(r, 'c', 'n') ? { ...r, value: 130.2 } : r));
    const { explanations } = judge(MAP, high, OPTIONS);
    expect(explanations.map((e) => e.message.code)).toContain('verify.explain.out-of-range');
    // Twin: inside the range nothing is named.
    expect(judge(MAP, asClaimed(MAP, OPTIONS, 1.05), OPTIONS).explanations).toEqual([]);
  });
});
