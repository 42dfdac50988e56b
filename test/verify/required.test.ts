import { describe, expect, it } from 'vitest';
import { planChecks } from '../../src/verify';
import published from '../published/nominal-voltages.json';
import { mapOf, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const planOf = (said: readonly Said[], motors = false) => planChecks(mapOf(said), [], { meter: METER, motors });

const ends = (id: string): string[] => id.split(' | ').slice(-2);
const kind = (end: string, said: readonly Said[]): string => {
  const found = said.find((s) => end === `conductor ${s.id}`);
  if (!found) return end.startsWith('pole') ? 'pole' : end === 'ground' ? 'G' : end;
  if (found.role === 'grounded conductor') return 'N';
  return found.role === 'equipment grounding conductor' ? 'EGC' : 'L';
};

function pairCounts(said: readonly Said[]): Record<string, number> {
  const counts: Record<string, number> = {};
  const voltage = planOf(said).next.filter((c) => c.function.startsWith('AC'));
  for (const check of voltage) {
    const pair = ends(check.id)
      .map((e) => kind(e, said))
      .sort()
      .join('');
    counts[pair] = (counts[pair] ?? 0) + 1;
  }
  return counts;
}

const SPLIT: readonly Said[] = [
  { id: 'a', system: 'us-120-240-1ph', role: 'line 1' },
  { id: 'b', system: 'us-120-240-1ph', role: 'line 2' },
  { id: 'n', system: 'us-120-240-1ph', role: 'grounded conductor' },
  { id: 'g', system: 'us-120-240-1ph', role: 'equipment grounding conductor' },
];

describe('required checks', () => {
  it.each([
    ['three-phase four-wire', WYE_208],
    ['single phase three-wire', SPLIT],
  ] as const)('%s: all pairs of the counting rule, and one pole for each line', (name, said) => {
    const rule = published.pairs[name];
    const counts = pairCounts(said);
    expect(counts.LL).toBe(rule.LL);
    expect(counts.LN).toBe(rule.LN);
    expect(counts.GL).toBe(rule.LG);
    expect(counts.GN).toBe(rule.NG);
    expect(counts.Lpole).toBe(rule.LG);
  });

  it('asks of every neutral and grounding conductor for the lifted check that alone tells them apart', () => {
    const lifted = planOf(WYE_208).next.filter((c) => c.condition === 'supply off, lifted');
    expect(lifted.map((c) => c.requiredFor.join()).sort()).toEqual(['g', 'n']);
    expect(lifted.find((c) => c.requiredFor.includes('n'))?.expected[0]?.open).toBe(true);
    expect(lifted.find((c) => c.requiredFor.includes('g'))?.expected[0]?.open).toBeUndefined();
  });

  it('leaves everything that needs the supply off to the end, so that it is shut down once', () => {
    const off = planOf(WYE_208).next.map((c) => c.condition?.startsWith('supply off') === true);
    expect(off.indexOf(true)).toBe(off.length - off.filter(Boolean).length);
  });

  it('compares a lone phase with the poles, since there is no other conductor to compare it with', () => {
    const plan = planOf([{ id: 'a', system: 'us-208y120', role: 'phase A' }]);
    const poles = plan.next.flatMap((c) => [c.from, c.to]).flatMap((p) => (p.kind === 'pole' ? [p.role] : []));
    expect(poles.sort()).toEqual(['phase A', 'phase B', 'phase C']);
  });

  it('asks for the rotation only where motors are fed', () => {
    const rotation = (motors: boolean) => planOf(WYE_208, motors).next.filter((c) => c.function === 'phase rotation');
    expect(rotation(false)).toEqual([]);
    expect(rotation(true)).toHaveLength(1);
    expect(rotation(true)[0]?.expected[0]?.rotation).toBe('ABC');
    expect(rotation(true)[0]?.requiredFor).toEqual(['a', 'b', 'c']);
  });

  it('needs no pole for the high leg: its voltage is its own', () => {
    const plan = planOf([
      { id: 'a', system: 'us-240-120-high-leg', role: 'phase A' },
      { id: 'h', system: 'us-240-120-high-leg', role: 'high leg' },
      { id: 'c', system: 'us-240-120-high-leg', role: 'phase C' },
      { id: 'n', system: 'us-240-120-high-leg', role: 'grounded conductor' },
    ]);
    const poles = plan.next.filter((c) => c.to.kind === 'pole' || c.from.kind === 'pole');
    expect(poles.map((c) => c.requiredFor.join()).sort()).toEqual(['a', 'c']);
  });

  it('only looks, and requires nothing, where nothing provable is claimed', () => {
    const plan = planOf([{ id: 'x', system: 'us-control', role: 'control' }]);
    expect(plan.required.x).toEqual([]);
    expect(plan.next.map((c) => c.requiredFor)).toEqual([[]]);
  });

  it('uses the neutral of the same circuit where circuits are known', () => {
    const two: readonly Said[] = [
      { id: 'n1', system: 'us-208y120', role: 'grounded conductor' },
      { id: 'n2', system: 'us-208y120', role: 'grounded conductor' },
      { id: 'a', system: 'us-208y120', role: 'phase A' },
    ];
    const groups = [{ conductors: ['a', 'n2'], kind: 'circuit' as const }];
    const site = { jurisdiction: 'US' as const, systems: [], legend: [], groups, spaces: {} };
    const plan = planChecks(mapOf(two), [], { meter: METER, site });
    expect(plan.required.a?.some((id) => id.includes('conductor n2'))).toBe(true);
    expect(plan.required.a?.some((id) => id.includes('conductor n1'))).toBe(false);
  });
});
