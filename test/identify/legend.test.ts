import { describe, expect, it } from 'vitest';
import type { SiteLegendEntry } from '../../src/flow';
import { identify, legendFindings, readLegend } from '../../src/identify';
import { conductors, site } from './make';

const GOOD: readonly SiteLegendEntry[] = [
  { system: 'us-208y120', role: 'phase A', color: 'black' },
  { system: 'us-208y120', role: 'grounded conductor', color: 'white' },
  { system: 'us-480y277', role: 'phase A', color: 'brown' },
  { system: 'us-480y277', role: 'grounded conductor', color: 'gray' },
  { system: 'us-isolated-power', role: 'isolated conductor 1', color: 'orange', stripe: 'violet' },
];
const codes = (legend: readonly SiteLegendEntry[]): string[] => legendFindings(legend, 'US').map((f) => f.code);

describe('reading a legend', () => {
  it('takes a good one as it is', () => {
    expect(readLegend(JSON.parse(JSON.stringify(GOOD)))).toEqual({ ok: true, legend: GOOD });
  });
  it.each([
    ['not-a-list', 'black is A'],
    ['unknown-system', [{ ...GOOD[0], system: 'us-999' }]],
    ['unknown-role', [{ ...GOOD[0], role: 'phase D' }]],
    ['unknown-color', [{ ...GOOD[0], color: 'grey' }]],
    ['role-not-in-system', [{ ...GOOD[0], role: 'high leg' }]],
    ['stripe-of-same-color', [{ ...GOOD[0], stripe: 'black' }]],
    ['malformed', [{ ...GOOD[0], note: 'x' }]],
    ['too-long', Array.from({ length: 201 }, () => GOOD[0])],
  ])('refuses %s', (code, input) => {
    const reading = readLegend(input);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(reading.faults.map((f) => f.code)).toContain(`identify.legend.${code}`);
  });
  it('says which line is wrong', () => {
    const reading = readLegend([GOOD[0], { ...GOOD[1], color: 'mauve' }]);
    expect(reading.ok ? [] : reading.faults).toEqual([{ code: 'identify.legend.unknown-color', line: 1 }]);
  });
});

describe('conflicts in a legend', () => {
  it('finds none in a good one', () => {
    expect(codes(GOOD)).toEqual([]);
  });
  it.each<[string, string, readonly SiteLegendEntry[]]>([
    ['legend-neutrals-alike', 'NEC 200.6(D)', [{ ...GOOD[3]!, color: 'white' }, GOOD[1]!]],
    ['legend-systems-alike', 'NEC 210.5(C)(1)', [GOOD[0]!, { ...GOOD[2]!, color: 'black' }]],
    ['legend-two-roles', 'NEC 210.5(C)(1)', [GOOD[0]!, { ...GOOD[0]!, role: 'phase B' }]],
    ['legend-two-colors', 'common practice', [GOOD[0]!, { ...GOOD[0]!, color: 'red' }]],
    ['legend-white', 'NEC 200.7', [{ ...GOOD[0]!, color: 'white' }]],
    ['legend-green', 'NEC 250.119', [{ ...GOOD[0]!, color: 'green' }]],
    ['legend-high-leg', 'NEC 110.15', [{ system: 'us-240-120-high-leg', role: 'high leg', color: 'red' }]],
    [
      'legend-isolated',
      'NEC 517.160(A)(5)',
      [{ system: 'us-isolated-power', role: 'isolated conductor 1', color: 'orange' }],
    ],
  ])('finds %s (%s)', (code, _, legend) => {
    expect(codes(legend)).toEqual([code]);
  });
  it('shows them with the findings of the picture', () => {
    const legend = [GOOD[1]!, { ...GOOD[3]!, color: 'white' as const }];
    expect(identify(conductors('black'), site({ legend })).findings.map((f) => f.code)).toContain(
      'legend-neutrals-alike',
    );
  });
});
