import { describe, expect, it } from 'vitest';
import type { PhaseMap } from '../../src/flow';
import { judge, planChecks, stops } from '../../src/verify';
import { ground, mapOf, on, read, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER, place: 'panel' } as const;
const HALF_A_PERCENT = [
  { system: 'unknown', role: 'unassigned', probability: 0.005 },
  { system: 'us-240-120-high-leg', role: 'phase B', probability: 0.005 },
] as const;
/** A crowd of one system; on each conductor the photo leaves half a percent to nothing known and to another system. */
const CROWD: readonly Said[] = Array.from({ length: 8 }, (_, set) =>
  WYE_208.map((s) => ({ ...s, id: `${s.id}${set}`, others: HALF_A_PERCENT })),
).flat();
const MAP = ((): PhaseMap => {
  const map = mapOf(CROWD);
  return { ...map, systems: [...map.systems, { system: 'us-240-120-high-leg', probability: 0.02 }] };
})();
const mapAfter = (volts: number) =>
  judge(MAP, [read(on('a0'), on('b0'), volts), read(on('a0'), ground, 120)], OPTIONS).map;
const of = (map: PhaseMap, system: string) => map.systems.find((s) => s.system === system)?.probability ?? 0;

describe('systems after a reading', () => {
  it('a reading as expected stops nobody: half a percent on each of forty makes no system', () => {
    const map = mapAfter(208);
    expect(stops(map, OPTIONS)).toEqual([]);
    expect(planChecks(MAP, [read(on('a0'), on('b0'), 208)], OPTIONS).next.length).toBeGreaterThan(0);
    expect(of(map, 'us-208y120')).toBeGreaterThan(0.99);
    expect(of(map, 'us-240-120-high-leg')).toBeLessThan(0.1);
  });

  it('what stays unassigned is of no system', () => {
    expect(mapAfter(208).systems.map((s) => s.system)).not.toContain('unknown');
  });

  it('twin: a reading that only the other system can give does make it present', () => {
    // 240/120 V high leg: 240 V between phases, 208 V from the high leg to ground (240 x sin 60 degrees).
    const readings = [
      read(on('b0'), ground, 207.8),
      read(on('a0'), on('b0'), 240),
      read(on('b0'), on('c0'), 240),
      read(on('a0'), ground, 120),
    ];
    expect(of(judge(MAP, readings, OPTIONS).map, 'us-240-120-high-leg')).toBeGreaterThan(0.9);
  });

  it('twin: where the photo knows no system and nothing is measured, one is told to stop', () => {
    expect(stops({ ...MAP, systems: [] }, OPTIONS).map((s) => s.code)).toEqual(['verify.stop.unknown-system']);
  });
});
