/**
 * Plays simulated sites and prints the figures of the meter checks. Everything is seeded.
 *
 *   npm run measure:verify -- [--survive N] [--policies N] [--named N] [--regret N] [--seed S] [--minutes M]
 *
 * `--minutes` ends the survival play early and prints what was played until then, for machines that are shared.
 */
import { parseArgs } from 'node:util';
import type { Reading } from '../../src/flow';
import { planChecks } from '../../src/verify';
import { type Assessment, assess } from '../../src/verify/assess';
import { explain } from '../../src/verify/explain';
import { Chance } from './sim/chance';
import { names } from './sim/names';
import { type Outcome, POLICIES, play } from './sim/policies';
import { METER, measure, readingOf } from './sim/probe';
import { regretOf } from './sim/regret';
import { makeSite, type Site, troubles, type Wrong } from './sim/site';
import { SUPPLIES } from './sim/supply';
import { falselyMetered } from './sim/truth';

const { values } = parseArgs({
  options: {
    survive: { type: 'string', default: '2000' },
    policies: { type: 'string', default: '60' },
    named: { type: 'string', default: '20' },
    regret: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    minutes: { type: 'string', default: '1000' },
  },
});
const seed = Number(values.seed);
const OPTIONS = { meter: METER };

/** All required readings of what the map claims, taken honestly; then those the changed claims ask for in addition. */
function readAll(site: Site, chance: Chance): Assessment {
  const readings: Reading[] = [];
  let state = assess(site.map, readings, OPTIONS);
  const asked = new Set<string>();
  for (let round = 0; round < 3; round++) {
    const more = state.needs.filter((n) => !asked.has(n.id));
    for (const n of more) asked.add(n.id);
    const taken = more.flatMap((n) => {
      const value = measure(n, site, chance);
      return value === null ? [] : [readingOf(n, value)];
    });
    if (taken.length === 0) break;
    readings.push(...taken);
    state = assess(site.map, readings, OPTIONS);
  }
  return state;
}

/** Upper bound of a rate at 95 % when `hits` of `n` were seen (exact for 0, Wilson-free normal bound above). */
const upper = (hits: number, n: number): number =>
  hits === 0 ? 1 - 0.05 ** (1 / n) : (hits + 1.645 * Math.sqrt(hits) + 1.35) / n;

function survive(n: number): void {
  let wrong = 0;
  let survived = 0;
  let right = 0;
  let proved = 0;
  const started = Date.now();
  const until = started + 60_000 * Number(values.minutes);
  for (let k = 0; k < n && Date.now() < until; k++) {
    const chance = new Chance(seed * 1_000_003 + k);
    const site = makeSite(chance, { circuits: chance.next() < 0.2 ? 2 : 1 });
    const state = readAll(site, chance);
    const metered = state.conductors.every((c) => c.standing === 'metered');
    if (site.wrong === 'nothing') {
      right += 1;
      proved += Number(metered);
      const open = state.conductors.filter((c) => c.standing !== 'metered');
      if (open.length > 0)
        console.log(
          `unproved: seed ${seed} site ${k} ${site.supply.id} ${open.map((c) => `${c.conductor} ${c.standing}`).join(', ')}`,
        );
    } else {
      wrong += 1;
      const verdict = { conductors: state.conductors, map: state.map, explanations: [], changes: [] };
      const bad = falselyMetered(site, verdict);
      if (bad.length > 0) {
        survived += 1;
        console.log(`survived: seed ${seed} site ${k} ${site.supply.id} ${site.wrong} ${bad.join(' ')}`);
      }
    }
    if (k % 1000 === 999)
      console.error(`${k + 1} sites, ${((Date.now() - started) / (k + 1)).toFixed(1)} ms each, survived ${survived}`);
  }
  console.log(
    `wrong maps or faulty conductors: ${wrong} sites, a false claim metered in ${survived}; 95 % upper bound ${upper(survived, wrong).toExponential(2)}`,
  );
  console.log(
    `right maps: ${right} sites, all conductors metered in ${proved} (${((100 * proved) / Math.max(right, 1)).toFixed(2)} %)`,
  );
}

const mean = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0) / Math.max(xs.length, 1);

function policies(n: number): void {
  for (const kind of ['right map: until proof', 'wrong map: until dispute'] as const) {
    const rows = new Map(POLICIES.map((p) => [p, [] as Outcome[]]));
    for (let k = 0; k < n; k++) {
      const pick = new Chance(seed * 7919 + k);
      const base = pick.pick(SUPPLIES);
      const wrong: Wrong = kind.startsWith('right')
        ? 'nothing'
        : pick.pick(troubles(base).filter((t) => t !== 'nothing'));
      for (const policy of POLICIES) {
        const site = makeSite(new Chance(seed * 104_729 + k), { wrong, system: base.id });
        rows.get(policy)?.push(play(site, policy, new Chance(k), !kind.startsWith('right')));
      }
    }
    console.log(kind);
    for (const [policy, outcomes] of rows) {
      const done = outcomes.filter((o) => o.readings !== null);
      const named = outcomes.flatMap((o) => o.namedAfter ?? []);
      const parts = [
        `readings ${mean(done.map((o) => o.readings ?? 0)).toFixed(1)}`,
        `work ${mean(done.map((o) => o.work ?? 0)).toFixed(1)}`,
        `reached ${done.length}/${outcomes.length}`,
        ...(kind.startsWith('right')
          ? []
          : [`named first ${named.length}/${outcomes.length} after ${mean(named).toFixed(1)} readings`]),
      ];
      console.log(`  ${policy.padEnd(20)} ${parts.join(', ')}`);
    }
  }
}

function named(n: number): void {
  const tally = new Map<Wrong, { first: number; three: number; of: number }>();
  for (const base of SUPPLIES)
    for (const wrong of troubles(base).filter((t) => t !== 'nothing'))
      for (let k = 0; k < n; k++) {
        const chance = new Chance(seed * 15_485_863 + k * 31 + base.id.length);
        const site = makeSite(chance, { wrong, system: base.id });
        const plan = planChecks(site.map, [], OPTIONS).next;
        const readings = plan.flatMap((c) => {
          const value = measure(c, site, chance);
          return value === null ? [] : [readingOf(c, value)];
        });
        const place = explain(assess(site.map, readings, OPTIONS), OPTIONS).findIndex((e) => names(e, site));
        const so = tally.get(wrong) ?? { first: 0, three: 0, of: 0 };
        tally.set(wrong, {
          first: so.first + Number(place === 0),
          three: so.three + Number(place >= 0 && place < 3),
          of: so.of + 1,
        });
      }
  console.log('trouble named first / among three, after the first required set');
  for (const [wrong, t] of tally)
    console.log(
      `  ${wrong.padEnd(32)} ${((100 * t.first) / t.of).toFixed(1)} % / ${((100 * t.three) / t.of).toFixed(1)} % of ${t.of}`,
    );
}

function regret(n: number): void {
  const all: number[] = [];
  for (let k = 0; k < n; k++) {
    const one = regretOf(new Chance(seed * 32_452_843 + k));
    if (one !== null) all.push(one);
  }
  all.sort((a, b) => a - b);
  console.log(
    `regret against the exact order: mean ${(100 * mean(all)).toFixed(2)} %, median ${(100 * (all[all.length >> 1] ?? 0)).toFixed(2)} %, worst ${(100 * (all.at(-1) ?? 0)).toFixed(2)} % of ${all.length} plans`,
  );
}

if (Number(values.regret) > 0) regret(Number(values.regret));
if (Number(values.named) > 0) named(Number(values.named));
if (Number(values.policies) > 0) policies(Number(values.policies));
if (Number(values.survive) > 0) survive(Number(values.survive));
