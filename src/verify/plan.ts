import { type Check, type ExpectedReading, type MeterPlan, message, type PhaseMap, type Reading } from '../flow';
import { type Belief, expectation } from './agreement';
import { type Assessment, assess } from './assess';
import { endOf, expectedVolts } from './end';
import { explain } from './explain';
import { informationBits, type PlanHypothesis, planHypotheses, rulesOut } from './hypotheses';
import type { MeterOptions } from './options';
import { type OrderProblem, orderChecks, quickOrder } from './order';
import { type CheckNeed, meets } from './required';
import { stops } from './stops';
import { at, checkId, conductorsOf, GROUND } from './test-point';

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

/** Checks that tell the explanations of a contradiction apart; they may repeat one that was made. */
function settlingNeeds(assessment: Assessment, options: MeterOptions): CheckNeed[] {
  const wanted = new Set(explain(assessment, options).flatMap((e) => e.settledBy ?? []));
  const made = assessment.sorted.counted.flatMap((r): CheckNeed[] => {
    const why = message('verify.why.settle', { value: String(r.value) });
    const base = {
      from: r.from,
      to: r.to,
      ...(r.third ? { third: r.third } : {}),
      ...(r.condition ? { condition: r.condition } : {}),
    };
    const shapes = [
      { ...base, function: r.function },
      { ...base, function: 'AC volts, low impedance' as const },
    ];
    return shapes.map((shape) => ({ ...shape, id: checkId(shape), why, requiredFor: [], accepts: [] }));
  });
  const disputed = new Set(assessment.conductors.filter((c) => c.standing === 'disputed').map((c) => c.conductor));
  return made.filter((n, i) => {
    const first = made.findIndex((m) => m.id === n.id) === i;
    return first && wanted.has(n.id) && conductorsOf(n).some((id) => disputed.has(id));
  });
}

const phaseOf = (need: CheckNeed): number => (need.condition?.startsWith('supply off') ? 1 : 0);

/** Everything of a plan but the order. */
interface Prepared {
  readonly all: readonly CheckNeed[];
  /** So many of the first settle contradictions and come before the others. */
  readonly settling: number;
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
  const settling = settlingNeeds(assessment, options).filter((s) => !open.some((n) => n.id === s.id));
  const all = [...settling, ...open];
  const hypotheses = planHypotheses(assessment.map, belief, all);
  const details = all.map((need, i): Check => {
    const { accepts: _, ...check } = need;
    const expected = expectations(need, assessment.map, belief);
    return { ...check, expected, rulesOut: rulesOut(i, hypotheses), informationBits: informationBits(i, hypotheses) };
  });
  const made = { all, settling: settling.length, hypotheses, details, required };
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
  const part = (keep: (need: CheckNeed, i: number) => boolean): number[] => {
    const own = [...all.keys()].filter((i) => keep(all[i] as CheckNeed, i));
    const shown = hypotheses.map((h) => ({ probability: h.probability, shows: own.map((i) => h.shows[i] ?? false) }));
    const order = ordering({ checks: own.map((i) => all[i] as CheckNeed), hypotheses: shown, last });
    return order.map((k) => own[k] as number);
  };
  const order = [
    ...part((_, i) => i < settling),
    ...part((n, i) => i >= settling && phaseOf(n) === 0),
    ...part((n, i) => i >= settling && phaseOf(n) === 1),
  ];
  return { next: order.flatMap((i) => details[i] ?? []), required, stops: stops(map, options) };
}

/**
 * What to measure next and why. `required` is complete coverage whatever the probabilities say; `next` lists the
 * checks not yet in, ordered by least expected work until the map is proved or refuted, with everything that needs
 * the supply off at the end, so that it is shut down once. Settling checks for contradictions come first.
 */
export const planChecks = (map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): MeterPlan =>
  planBy(orderChecks, map, readings, options);

/**
 * The same checks as `planChecks` in a first good order, for showing a check at once while the better order is
 * worked out. Its expected work has no bound: what is shipped in the end is `planChecks`.
 */
export const planFirst = (map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): MeterPlan =>
  planBy(quickOrder, map, readings, options);
