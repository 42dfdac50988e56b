import { describe, expect, it } from 'vitest';
import { SYSTEMS } from '../../src/identify';
import { auxiliaries, candidateMains, presences, riderPrior } from '../../src/identify/infer/candidates';
import { site } from './make';

const sum = (list: readonly { readonly prior: number }[]): number => list.reduce((total, p) => total + p.prior, 0);
const weight = (knowledge: ReturnType<typeof site>, ...systems: readonly string[]): number =>
  presences(knowledge).find((p) => p.systems.join() === [...systems].sort().join())?.prior ?? 0;

describe('which supplies may be there', () => {
  it.each([
    ['nothing said', site()],
    ['one named', site({ systems: ['us-208y120'] })],
    ['two named', site({ systems: ['us-208y120', 'us-480y277'] })],
    ['a legend', site({ legend: [{ system: 'uk-230-400', role: 'phase A', color: 'brown' }] })],
    ['Canada', site({ jurisdiction: 'CA' })],
  ])('%s: priors sum to 1 and none is negative', (_, knowledge) => {
    const all = presences(knowledge);
    expect(sum(all)).toBeCloseTo(1, 9);
    for (const p of all) expect(p.prior).toBeGreaterThanOrEqual(0);
    for (const p of all) expect(new Set(p.systems).size).toBe(p.systems.length);
  });

  it('named ones only, each once; unknown and auxiliary names are no supply', () => {
    const named = site({ systems: ['us-480y277', 'us-208y120', 'us-208y120', 'us-switch-legs', 'no-such'] });
    expect(candidateMains(named)).toEqual(['us-208y120', 'us-480y277']);
    expect(new Set(candidateMains(site()).map((id) => SYSTEMS[id]?.jurisdiction))).toEqual(new Set(['US']));
  });

  it('one named is the only one; of two named both are likelier than either alone', () => {
    expect(weight(site({ systems: ['us-208y120'] }), 'us-208y120')).toBe(1);
    const two = site({ systems: ['us-208y120', 'us-480y277'] });
    expect(weight(two, 'us-208y120', 'us-480y277')).toBeGreaterThan(weight(two, 'us-208y120'));
    expect(weight(two, 'us-208y120')).toBeCloseTo(weight(two, 'us-480y277'), 12);
  });

  it('a legend posted for a system speaks for it, also for one of another country', () => {
    const legend = [{ system: 'us-480y277', role: 'phase A', color: 'brown' }] as const;
    expect(weight(site({ legend }), 'us-480y277')).toBeGreaterThan(weight(site(), 'us-480y277'));
    const foreign = [{ system: 'uk-230-400', role: 'phase A', color: 'brown' }] as const;
    expect(candidateMains(site({ legend: foreign }))).toContain('uk-230-400');
    expect(candidateMains(site())).not.toContain('uk-230-400');
  });

  it('the pair that stands in most commercial buildings is likelier than one of DC and AC (common practice, no source)', () => {
    expect(weight(site(), 'us-208y120', 'us-480y277')).toBeGreaterThan(weight(site(), 'us-208y120', 'us-dc'));
  });
});

describe('what rides along', () => {
  const rider = (mains: readonly string[], cables = 0, named = false) =>
    riderPrior('us-switch-legs', 0.1, mains, { named, cables });

  it('is believed as the user says it; beside two supplies less than beside one', () => {
    expect(rider(['us-120-240-1ph'], 0, true)).toBe(0.1);
    expect(rider(['us-120-240-1ph', 'us-480y277'])).toBeLessThan(rider(['us-120-240-1ph']));
  });

  it('switch legs belong to supplies that feed lights, and several cables make a switched box likelier', () => {
    expect(rider(['us-120-240-1ph'])).toBeGreaterThan(rider(['us-480-delta']));
    expect(rider(['us-120-240-1ph'], 3)).toBeGreaterThan(rider(['us-120-240-1ph'], 1));
    expect(rider(['us-480-delta'], 3)).toBe(rider(['us-480-delta'], 1));
  });

  it('is one of those of the country, or those named, each alike', () => {
    const free = auxiliaries(site());
    expect(free.map((a) => a.system)).toContain('us-switch-legs');
    expect(free.every((a) => a.prior > 0 && a.prior < 1)).toBe(true);
    const [one] = auxiliaries(site({ systems: ['us-208y120', 'us-switch-legs'] }));
    expect(auxiliaries(site({ systems: ['us-208y120', 'us-switch-legs'] }))).toHaveLength(1);
    expect(one?.prior).toBeGreaterThan(free.find((a) => a.system === 'us-switch-legs')!.prior);
    const two = auxiliaries(site({ systems: ['us-switch-legs', 'iec-machine'] }));
    expect(two.map((a) => a.prior)).toEqual([one!.prior / 2, one!.prior / 2]);
  });
});
