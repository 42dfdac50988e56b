import { type ExpectedReading, type Message, message, type PhaseMap, type Role } from '../flow';
import { type Belief, expectation } from './agreement';
import type { Claim } from './claim';
import { isLine } from './claim';
import type { CheckNeed } from './required';
import { FAULT_PRIOR } from './states';
import { conductorsOf } from './test-point';

/** One way in which the map may be wrong, and what each check would then show. */
export interface PlanHypothesis {
  readonly probability: number;
  /** In words; null for the map being right. */
  readonly label: Message | null;
  /** Expected by index of check; null: nothing can be said. */
  readonly predicts: readonly (number | null)[];
  readonly shows: readonly boolean[];
}

/** Two lines of one system mixed up: the commonest slip at a termination; an assumption. */
const SWAPPED = 0.01;
/** Alternatives of the map less probable than this are not planned for. */
const LEAST = 0.003;

const nominal = (e: ExpectedReading | null): number | null => (e ? (e.rotation === 'CBA' ? 1 : e.nominal) : null);

/** Would a reading of the other hypothesis' nominal value lie outside the band of the claim? */
const outside = (claimed: ExpectedReading | null, other: ExpectedReading | null): boolean => {
  if (!claimed || !other) return false;
  if (claimed.rotation) return claimed.rotation !== other.rotation;
  return other.nominal < claimed.low || other.nominal > claimed.high;
};

function withClaims(belief: Belief, changes: readonly Claim[]): Belief {
  return { ...belief, claims: new Map([...belief.claims, ...changes.map((c) => [c.conductor, c] as const)]) };
}

/** The checks with what the present claims expect of them, worked out once for all hypotheses. */
interface Looked {
  readonly checks: readonly CheckNeed[];
  readonly claimed: readonly (ExpectedReading | null)[];
  readonly predicts: readonly (number | null)[];
  /** Indices of the checks that touch a conductor. */
  readonly touching: ReadonlyMap<string, readonly number[]>;
}

function lookAt(checks: readonly CheckNeed[], belief: Belief): Looked {
  const claimed = checks.map((check) => expectation(check, belief));
  const touching = new Map<string, number[]>();
  for (const [i, check] of checks.entries())
    for (const id of new Set(conductorsOf(check))) {
      const known = touching.get(id);
      if (known) known.push(i);
      else touching.set(id, [i]);
    }
  return { checks, claimed, predicts: claimed.map(nominal), touching };
}

/** What a check shows under a hypothesis, and whether that contradicts the claim. */
type Outcome = readonly [value: number | null, shows: boolean];

/** A hypothesis that differs from the claims only in what the checks on these conductors show. */
function hypothesis(
  probability: number,
  label: Message,
  conductors: readonly string[],
  looked: Looked,
  outcome: (check: CheckNeed, claimed: ExpectedReading | null) => Outcome,
): PlanHypothesis {
  const predicts = [...looked.predicts];
  const shows = Array<boolean>(predicts.length).fill(false);
  for (const i of new Set(conductors.flatMap((id) => looked.touching.get(id) ?? []))) {
    const [value, shown] = outcome(looked.checks[i] as CheckNeed, looked.claimed[i] ?? null);
    predicts[i] = value;
    shows[i] = shown;
  }
  return { probability, label, predicts, shows };
}

function alternative(
  weight: number,
  label: Message,
  changes: readonly Claim[],
  looked: Looked,
  belief: Belief,
): PlanHypothesis {
  const other = withClaims(belief, changes);
  const conductors = changes.map((c) => c.conductor);
  return hypothesis(weight, label, conductors, looked, (check, claimed) => {
    const expected = expectation(check, other);
    return [nominal(expected), outside(claimed, expected)];
  });
}

/** The conductor is held by nothing: a loaded or zero-seeking look at it shows about 0, continuity shows open. */
function disconnected(claim: Claim, looked: Looked): PlanHypothesis {
  const label = message('verify.rules-out.disconnected', { conductor: claim.conductor });
  return hypothesis(FAULT_PRIOR.disconnected, label, [claim.conductor], looked, (check, claimed) => {
    if (!claimed) return [null, false];
    if (check.function === 'continuity') return [Number.POSITIVE_INFINITY, !claimed.open];
    return [0, check.function === 'AC volts, low impedance' && claimed.low > 1];
  });
}

/** An open neutral shows as half-way volts to every line and to ground. */
function openNeutral(claim: Claim, looked: Looked): PlanHypothesis {
  const label = message('verify.rules-out.open-neutral', { conductor: claim.conductor });
  return hypothesis(FAULT_PRIOR['open neutral'], label, [claim.conductor], looked, (check, claimed) =>
    claimed && check.function.startsWith('AC') ? [claimed.nominal * 0.6 + 20, true] : [nominal(claimed), false],
  );
}

const swappable = (role: Role): boolean =>
  isLine(role) || role === 'grounded conductor' || role === 'positive' || role === 'negative';

/**
 * Ways the map may be wrong, one or two conductors at a time, with probabilities: the alternatives the map itself
 * gives, exchanged conductors, loose ones, open neutrals; the first stands for the map being right.
 */
export function planHypotheses(map: PhaseMap, belief: Belief, checks: readonly CheckNeed[]): PlanHypothesis[] {
  const claims = [...belief.claims.values()];
  const looked = lookAt(checks, belief);
  const single = map.assignments.flatMap(({ conductor, roles }) => {
    const claim = belief.claims.get(conductor);
    return roles
      .filter((r) => claim && (r.role !== claim.role || r.system !== claim.system) && r.probability >= LEAST)
      .map((r) => {
        const label = message('verify.rules-out.role', {
          conductor,
          role: r.role,
          system: `identify.system.${r.system}`,
        });
        return alternative(r.probability, label, [{ ...r, conductor }], looked, belief);
      });
  });
  const swaps = claims.flatMap((a, i) =>
    claims.slice(i + 1).flatMap((b) =>
      a.system === b.system && a.role !== b.role && swappable(a.role) && swappable(b.role)
        ? [
            alternative(
              SWAPPED,
              message('verify.rules-out.swapped', { first: a.conductor, second: b.conductor }),
              [
                { ...a, role: b.role },
                { ...b, role: a.role },
              ],
              looked,
              belief,
            ),
          ]
        : [],
    ),
  );
  const faults = claims.map((claim) => disconnected(claim, looked));
  const neutrals = claims.filter((c) => c.role === 'grounded conductor').map((c) => openNeutral(c, looked));
  const wrong = [...single, ...swaps, ...faults, ...neutrals];
  const odds = wrong.reduce((sum, h) => sum + h.probability, 0);
  const right: PlanHypothesis = {
    probability: 1,
    label: null,
    predicts: looked.predicts,
    shows: checks.map(() => false),
  };
  return [right, ...wrong].map((h) => ({ ...h, probability: h.probability / (1 + odds) }));
}

/** At most so many ways of being wrong are named with a check. */
const NAMED = 3;

/** The likeliest ways in which the map may be wrong that this check would show. */
export function rulesOut(index: number, hypotheses: readonly PlanHypothesis[]): Message[] {
  return hypotheses
    .filter((h) => h.shows[index])
    .sort((a, b) => b.probability - a.probability)
    .flatMap((h) => h.label ?? [])
    .slice(0, NAMED);
}

/** Two predictions a meter would tell apart. */
const bucket = (value: number | null): string =>
  value === null
    ? 'nothing'
    : Number.isFinite(value)
      ? String(Math.round(20 * Math.log2(1 + Math.abs(value) / 6)) * Math.sign(value || 1))
      : 'open';

/** Expected information of a check: entropy, in bits, of what it may show over all hypotheses. */
export function informationBits(index: number, hypotheses: readonly PlanHypothesis[]): number {
  const mass = new Map<string, number>();
  for (const h of hypotheses) {
    const key = bucket(h.predicts[index] ?? null);
    mass.set(key, (mass.get(key) ?? 0) + h.probability);
  }
  const bits = [...mass.values()].reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
  // Rounding may leave a hair below nothing.
  return Math.max(0, bits);
}
