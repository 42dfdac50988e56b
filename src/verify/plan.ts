import { type Check, type ExpectedReading, type MeterPlan, message, type PhaseMap, type Reading } from '../flow';
import { type Belief, expectation } from './agreement';
import { type Assessment, assess } from './assess';
import { isShutdown } from './effort';
import { endOf, expectedVolts } from './end';
import { settlingProbes } from './explain';
import { informationBits, type PlanHypothesis, planHypotheses, rulesOut } from './hypotheses';
import type { MeterOptions } from './options';
import { type OrderProblem, orderChecks, quickOrder } from './order';
import { type CheckNeed, meets } from './required';
import { stops } from './stops';
import { at, checkId, conductorsOf, GROUND, leadsOf } from './test-point';

/** What each still possible map expects of a check, the present claim first; equal expectations once. */
function expectations(need: CheckNeed, map: PhaseMap, belief: Belief): ExpectedReading[] {
  const found: ExpectedReading[] = [];
  const add = (e: ExpectedReading | null): void => {
    const same = (x: ExpectedReading) =>
      x.system === e?.system && Math.abs(x.nominal - e.nominal) < 0.5 && x.open === e.open;
    if (e && !found.some(same)) found.push(e);
  };
  if (need.condition?.startsWith('position')) return travelerExpectations(need, belief);
  add(expectation(need, belief));
  for (const id of conductorsOf(need)) {
    const roles = map.assignments.find((a) => a.conductor === id)?.roles ?? [];
    for (const r of roles.slice(0, 4))
      add(expectation(need, { ...belief, claims: new Map([...belief.claims, [id, { ...r, conductor: id }]]) }));
  }
  return found.slice(0, 5);
}

/** A traveler shows either the line voltage or nothing; which, the pair decides. */
function travelerExpectations(need: CheckNeed, belief: Belief): ExpectedReading[] {
  const [a, b] = [endOf(need.from, belief.claims), endOf(need.to, belief.claims)];
  if (!a || !b) return [];
  const full = expectedVolts(a, b, undefined, belief.models, belief.band);
  const earth = { system: null, role: 'ground' as const };
  const none = expectedVolts(
    { system: full?.system ?? null, role: 'ground' },
    earth,
    undefined,
    belief.models,
    belief.band,
  );
  return [full, none].flatMap((e) => (e ? [{ ...e, between: [a.role, b.role] as const }] : []));
}

/** A conductor of which nothing provable is claimed is at least looked at against ground. */
function surveyNeeds({ belief, needs }: Assessment, map: PhaseMap): CheckNeed[] {
  const covered = new Set(needs.flatMap((n) => n.requiredFor));
  return map.assignments
    .filter((a) => !covered.has(a.conductor))
    .map(({ conductor }): CheckNeed => {
      const direct = belief.models(belief.claims.get(conductor)?.system ?? '')?.current === 'DC';
      const shape = {
        from: at(conductor),
        to: GROUND,
        function: direct ? ('DC volts' as const) : ('AC volts' as const),
      };
      return {
        ...shape,
        id: checkId(shape),
        why: message('verify.why.survey', { conductor }),
        requiredFor: [],
        accepts: [],
      };
    });
}

/** The checks that tell the explanations of a contradiction apart: repeats, required ones still missing, marked poles. */
function settlingNeeds(assessment: Assessment, options: MeterOptions): CheckNeed[] {
  return settlingProbes(assessment, options).map((probe): CheckNeed => {
    const id = checkId(probe);
    const before = assessment.sorted.counted.find((r) => leadsOf(r).join() === leadsOf(probe).join());
    const why = before
      ? message('verify.why.settle', { value: String(before.value) })
      : message('verify.why.tell-apart', { conductor: conductorsOf(probe)[0] ?? '' });
    return { ...probe, id, why, requiredFor: [], accepts: [] };
  });
}

/** Everything of a plan but the order. */
interface Prepared {
  readonly all: readonly CheckNeed[];
  /** Ids of those that settle a contradiction and come before the others. */
  readonly settling: ReadonlySet<string>;
  readonly hypotheses: readonly PlanHypothesis[];
  readonly details: readonly Check[];
  readonly required: MeterPlan['required'];
}

/** What was prepared for a first plan serves the full one. */
const PREPARED = new WeakMap<Assessment, Prepared>();

function prepare(assessment: Assessment, map: PhaseMap, options: MeterOptions): Prepared {
  const known = PREPARED.get(assessment);
  if (known) return known;
  const { belief, needs, sorted } = assessment;
  const required = Object.fromEntries(
    map.assignments.map(({ conductor }) => [
      conductor,
      needs.filter((n) => n.requiredFor.includes(conductor)).map((n) => n.id),
    ]),
  );
  const open = [...needs, ...surveyNeeds(assessment, map)].filter((n) => !sorted.counted.some((r) => meets(r, n)));
  const settlers = settlingNeeds(assessment, options);
  const settling = new Set(settlers.map((n) => n.id));
  const all = [...settlers.filter((s) => !open.some((n) => n.id === s.id)), ...open];
  const hypotheses = planHypotheses(assessment.map, belief, all);
  const details = all.map((need, i): Check => {
    const { accepts: _, ...check } = need;
    const expected = expectations(need, assessment.map, belief);
    return { ...check, expected, rulesOut: rulesOut(i, hypotheses), informationBits: informationBits(i, hypotheses) };
  });
  const made = { all, settling, hypotheses, details, required };
  PREPARED.set(assessment, made);
  return made;
}

function planBy(
  ordering: (problem: OrderProblem) => number[],
  map: PhaseMap,
  readings: readonly Reading[],
  options: MeterOptions,
): MeterPlan {
  const assessment = assess(map, readings, options);
  const { all, settling, hypotheses, details, required } = prepare(assessment, map, options);
  const last = assessment.sorted.counted.at(-1) ?? null;
  const part = (settles: boolean, shutdown: boolean): number[] => {
    const own = [...all.keys()].filter((i) => {
      const need = all[i] as CheckNeed;
      return settling.has(need.id) === settles && isShutdown(need) === shutdown;
    });
    const shown = hypotheses.map((h) => ({ probability: h.probability, shows: own.map((i) => h.shows[i] ?? false) }));
    const order = ordering({ checks: own.map((i) => all[i] as CheckNeed), hypotheses: shown, last });
    return order.map((k) => own[k] as number);
  };
  const order = [...part(true, false), ...part(false, false), ...part(true, true), ...part(false, true)];
  return { next: order.flatMap((i) => details[i] ?? []), required, stops: stops(map, options) };
}

/**
 * What to measure next and why. `required` is complete coverage whatever the probabilities say; `next` lists the
 * checks not yet in, ordered by least expected work until the map is proved or refuted, with everything that needs
 * the supply off at the end, so that it is shut down once. Checks that settle a contradiction, required ones among
 * them, come first: of all, or of those with the supply off.
 */
export const planChecks = (map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): MeterPlan =>
  planBy(orderChecks, map, readings, options);

/**
 * The same checks as `planChecks` in a first good order, for showing a check at once while the better order is
 * worked out. Its expected work has no bound: what is shipped in the end is `planChecks`.
 */
export const planFirst = (map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): MeterPlan =>
  planBy(quickOrder, map, readings, options);
