import { describe, expect, it } from 'vitest';
import type { RoleProbability } from '../../src/flow';
import { judge, planChecks } from '../../src/verify';
import { cases } from '../cases';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { METER, measure, readingOf } from './sim/probe';
import { makeSite, type Site } from './sim/site';
import { falselyMetered } from './sim/truth';

const OPTIONS = { meter: METER };

const honestReadings = (site: Site, chance: Chance) =>
  planChecks(site.map, [], OPTIONS).next.flatMap((check) => {
    const value = measure(check, site, chance);
    return value === null ? [] : [readingOf(check, value)];
  });

function permutations<T>(of: readonly T[]): T[][] {
  if (of.length <= 1) return [[...of]];
  return of.flatMap((one, i) => permutations([...of.slice(0, i), ...of.slice(i + 1)]).map((rest) => [one, ...rest]));
}

/** `npm run measure:verify -- --survive 100000` plays the long version of this. */
describe('a wrong map does not survive honest readings', () => {
  it('60 seeded sites with trouble: no false claim metered', () => {
    let wrong = 0;
    for (let k = 0; k < 90 && wrong < 60; k++) {
      const chance = new Chance(50_000 + k);
      const site = makeSite(chance);
      if (site.wrong === 'nothing') continue;
      wrong += 1;
      expect(falselyMetered(site, judge(site.map, honestReadings(site, chance), OPTIONS))).toEqual([]);
    }
    expect(wrong).toBe(60);
  }, 120_000);

  it.each(['us-120-240-1ph', 'us-208y120', 'us-240-120-high-leg', 'us-240-corner', 'us-isolated-power'])(
    '%s: of all ways to deal out the roles, only the right one is proved, and conductors dealt wrong never are',
    (system) => {
      const chance = new Chance(17);
      const site = makeSite(chance, { wrong: 'nothing', system });
      let right = 0;
      for (const dealt of permutations(site.map.assignments.map((a) => a.roles[0] as RoleProbability))) {
        const assignments = site.map.assignments.map((a, i) => ({ ...a, roles: [dealt[i] as RoleProbability] }));
        const other: Site = { ...site, map: { ...site.map, assignments } };
        const verdict = judge(other.map, honestReadings(other, chance), OPTIONS);
        expect(falselyMetered(other, verdict)).toEqual([]);
        if (verdict.conductors.every((c) => c.standing === 'metered')) {
          right += 1;
          for (const [i, wire] of site.wires.entries())
            expect(verdict.map.assignments[i]?.roles[0]?.role).toBe(wire.role);
        }
      }
      expect(right).toBeGreaterThan(0);
    },
    120_000,
  );

  it('right maps are proved', () => {
    for (let k = 0; k < cases(25); k++) {
      const chance = new Chance(90_000 + k);
      const site = makeSite(chance, { wrong: 'nothing' });
      const verdict = judge(site.map, honestReadings(site, chance), OPTIONS);
      expect(verdict.conductors.map((c) => c.standing)).toEqual(site.wires.map(() => 'metered'));
    }
  }, 60_000);

  it('the check does find false claims when the readings are made up to suit the map', () => {
    // Twin: a dishonest electrician types what is expected; the truth differs and the count must show it.
    const site = makeSite(new Chance(4), { wrong: 'swapped phases', system: 'us-208y120' });
    const verdict = judge(site.map, asClaimed(site.map, OPTIONS), OPTIONS);
    expect(falselyMetered(site, verdict).length).toBeGreaterThan(0);
  });
});
