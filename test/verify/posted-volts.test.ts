import { describe, expect, it } from 'vitest';
import type { PhaseMap } from '../../src/flow';
import { beyondNormal, judge, notices, phasorDiagram, planChecks, postable, readOnDiagram } from '../../src/verify';
import { ground, mapOf, on, read, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };

describe('volts that only a nameplate tells', () => {
  const map: PhaseMap = {
    ...mapOf([]),
    systems: [
      { system: 'us-dc', probability: 0.2 },
      { system: 'us-208y120', probability: 0.9 },
      { system: 'us-isolated-power', probability: 0.4 },
      { system: 'us-pv-dc', probability: 0.05 },
      { system: 'no-such-system', probability: 0.5 },
    ],
  };

  it('are asked for where DC or isolated power is likely, the likeliest first', () => {
    expect(postable(map)).toEqual(['us-isolated-power', 'us-dc']);
  });

  it('of DC with nothing claimed, the survey is made on the DC range', () => {
    const dc = mapOf([{ id: 'u', system: 'us-dc', role: 'unassigned' }]);
    expect(planChecks(dc, [], { ...OPTIONS, posted: { 'us-dc': 125 } }).next.map((c) => c.function)).toEqual([
      'DC volts',
    ]);
    // Twin: where nothing tells of DC, on the AC range.
    const ac = mapOf([{ id: 'u', system: 'us-208y120', role: 'unassigned' }]);
    expect(planChecks(ac, [], OPTIONS).next.map((c) => c.function)).toEqual(['AC volts']);
  });

  it('of DC with a middle conductor, it is read against both poles and ground, all on the DC range', () => {
    const three = mapOf([
      { id: 'p', system: 'iec-dc', role: 'positive' },
      { id: 'm', system: 'iec-dc', role: 'grounded conductor' },
      { id: 'q', system: 'iec-dc', role: 'negative' },
    ]);
    const options = { ...OPTIONS, posted: { 'iec-dc': 220 } };
    const own = planChecks(three, [], options).next.filter((c) => c.requiredFor.includes('m'));
    const volts = own.filter((c) => c.function !== 'continuity');
    expect(volts).toHaveLength(3);
    expect(new Set(volts.map((c) => c.function))).toEqual(new Set(['DC volts']));
  });
});

describe('what is worth a word before measuring', () => {
  const codes = (said: Parameters<typeof mapOf>[0], meter: { lowImpedance: boolean } = METER) =>
    notices(mapOf(said), { meter: { ...METER, ...meter } }).map((m) => m.code);

  it('two bonded systems, a floating one, a meter without a low-impedance range; and nothing else', () => {
    expect(codes(WYE_208)).toEqual([]);
    expect(codes(WYE_208, { lowImpedance: false })).toEqual(['verify.notice.no-low-impedance']);
    expect(codes([...WYE_208, { id: 'x', system: 'us-480y277', role: 'phase A' }])).toEqual([
      'verify.notice.two-systems',
    ]);
    expect(codes([{ id: 'd', system: 'us-480-delta', role: 'phase A' }])).toEqual(['verify.notice.floating']);
  });
});

describe('the normal range within the wide one (ANSI C84.1, from memory: utilization 108 to 126 V, service 114 to 126)', () => {
  const map = mapOf(WYE_208);
  const said = (value: number | 'OL', options: object = OPTIONS, more: object = {}) =>
    beyondNormal(read(on('a'), ground, value, more), map, options)?.code;

  it('is narrower at the service', () => {
    expect(said(110)).toBeUndefined();
    expect(said(110, { ...OPTIONS, place: 'service' })).toBe('verify.beyond-normal');
    expect(said(120, { ...OPTIONS, place: 'service' })).toBeUndefined();
  });

  it('has no say over what is no voltage', () => {
    expect(said('OL')).toBeUndefined();
    expect(said(0.2, OPTIONS, { function: 'continuity', condition: 'supply off, lifted' })).toBeUndefined();
  });
});

describe('a diagram of one system', () => {
  it('shows nothing that was read in another, or under a switch condition', () => {
    const map = mapOf([...WYE_208, { id: 'x', system: 'us-480y277', role: 'phase A' }]);
    const diagram = phasorDiagram('us-208y120');
    if (!diagram) throw new Error('no diagram');
    const readings = [read(on('x'), ground, 277), read(on('a'), ground, 120, { condition: 'switch on' })];
    expect(readOnDiagram(diagram, map, readings, OPTIONS)).toEqual([]);
    // Twin: its own reading without a condition is shown.
    expect(readOnDiagram(diagram, map, [read(on('a'), ground, 120)], OPTIONS)).toHaveLength(1);
  });
});

describe('a conductor of which the map says nothing', () => {
  it('stays by color with nothing missing and nothing claimed', () => {
    const map: PhaseMap = { ...mapOf(WYE_208), assignments: [{ conductor: 'u', roles: [], because: [] }] };
    expect(judge(map, [], OPTIONS).conductors).toEqual([
      { conductor: 'u', standing: 'by color', missing: [], agree: [], contradict: [] },
    ]);
  });
});
