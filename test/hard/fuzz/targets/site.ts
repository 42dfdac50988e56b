import { COLOR_NAMES, type NamedConductor, ROLES, type SiteKnowledge } from '../../../../src/flow';
import { identify, readLegend, SYSTEMS } from '../../../../src/identify';
import { conductor } from '../../../record/sample-job';
import { between, pick } from '../../random';
import { mutateJson } from '../mutate-json';
import { type Json, jsonOf, must, type Target } from '../target';

const IDS = Object.keys(SYSTEMS);

const line = (random: () => number): Json => {
  const system = pick(random, IDS);
  const role = random() < 0.8 ? pick(random, SYSTEMS[system]!.roles) : pick(random, ROLES);
  return {
    system,
    role,
    color: pick(random, COLOR_NAMES),
    ...(random() < 0.3 ? { stripe: pick(random, COLOR_NAMES) } : {}),
  };
};

/** An insulation of two or three likely names. */
function named(random: () => number, id: string): NamedConductor {
  const like = conductor(id);
  const [best, next] = [pick(random, COLOR_NAMES), pick(random, COLOR_NAMES)];
  const confidence = 0.4 + 0.55 * random();
  const second = next === best ? [] : [{ name: next, probability: (1 - confidence) * random() }];
  return {
    ...like,
    covering: random() < 0.15 ? 'bare' : 'insulated',
    insulation: {
      ...like.insulation,
      best,
      confidence,
      candidates: [{ name: best, probability: confidence }, ...second],
      set: next === best ? [best] : [best, next],
    },
    stripe: random() < 0.2 ? { name: pick(random, COLOR_NAMES), confidence: random(), layout: 'along' } : null,
  };
}

/** A legend is read or refused with a reason; what is read can be reasoned with. */
export const legend: Target = {
  name: 'site legend',
  share: 8,
  make(random) {
    const list = Array.from({ length: between(random, 0, 12) }, () => line(random));
    return random() < 0.5 ? list : mutateJson(random, list);
  },
  check(input) {
    const value = jsonOf(input);
    const read = readLegend(value);
    if (!read.ok) {
      must(read.faults.length > 0, 'refused without a reason');
      return;
    }
    must(Array.isArray(value) && value.length === read.legend.length, 'lines lost or made up');
    const map = identify([conductor('c1')], {
      jurisdiction: 'US',
      systems: [],
      legend: read.legend,
      groups: [],
      spaces: {},
    });
    checkMap(map.assignments);
  },
};

function checkMap(assignments: ReturnType<typeof identify>['assignments']): void {
  for (const { roles } of assignments) {
    const sum = roles.reduce((total, r) => total + r.probability, 0);
    must(Number.isFinite(sum) && sum <= 1 + 1e-6, `probabilities sum to ${sum}`);
    must(
      roles.every((r) => r.probability >= 0),
      'a negative probability',
    );
  }
}

interface SiteCase {
  readonly conductors: readonly NamedConductor[];
  readonly site: SiteKnowledge;
}

/** Any conductors at any place of use: the phase map is a distribution for each, and not one is left out. */
export const siteKnowledge: Target = {
  name: 'site knowledge',
  share: 4,
  make(random) {
    const ids = Array.from({ length: between(random, 0, 8) }, (_, k) => `c${k}`);
    const some = () => ids.filter(() => random() < 0.4);
    const site: SiteKnowledge = {
      jurisdiction: pick(random, ['US', 'CA', 'IEC', 'UK', 'AU', 'CN', 'IN', 'JP'] as const),
      systems: Array.from({ length: between(random, 0, 3) }, () => (random() < 0.9 ? pick(random, IDS) : 'unheard-of')),
      legend: [],
      groups: Array.from({ length: between(random, 0, 3) }, () => ({
        conductors: random() < 0.9 ? some() : [...some(), 'nobody'],
        kind: pick(random, ['circuit', 'cable', 'tag', 'breaker'] as const),
      })),
      spaces: Object.fromEntries(some().map((id) => [id, pick(random, [1, 2, 3, 42, 0, -7, 1e9])])),
    };
    const one: SiteCase = { conductors: ids.map((id) => named(random, id)), site };
    return JSON.parse(JSON.stringify(one)) as Json;
  },
  check(input) {
    const { conductors, site } = jsonOf(input) as unknown as SiteCase;
    const map = identify(conductors, site);
    must(map.assignments.length === conductors.length, 'a conductor was lost');
    checkMap(map.assignments);
  },
};
