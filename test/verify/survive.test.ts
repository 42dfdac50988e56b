import { describe, expect, it } from 'vitest';
import { judge, planChecks } from '../../src/verify';
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

/** `npm run measure:verify -- --survive 100000` plays the long version of this. */
describe('a wrong map does not survive honest readings', () => {
  it('120 seeded sites with trouble: no false claim metered', () => {
    let wrong = 0;
    for (let k = 0; k < 150 && wrong < 120; k++) {
      const chance = new Chance(50_000 + k);
      const site = makeSite(chance);
      if (site.wrong === 'nothing') continue;
      wrong += 1;
      expect(falselyMetered(site, judge(site.map, honestReadings(site, chance), OPTIONS))).toEqual([]);
    }
    expect(wrong).toBe(120);
  }, 120_000);

  it('right maps are proved', () => {
    for (let k = 0; k < 25; k++) {
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
