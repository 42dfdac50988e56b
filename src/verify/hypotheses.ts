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

function alternative(
  weight: number,
  label: Message,
  changes: readonly Claim[],
  checks: readonly CheckNeed[],
  belief: Belief,
): PlanHypothesis {
  const other = withClaims(belief, changes);
  const touched = new Set(changes.map((c) => c.conductor));
  const pairs = checks.map((check) => {
    const claimed = expectation(check, belief);
    const hit = conductorsOf(check).some((id) => touched.has(id));
    return [claimed, hit ? expectation(check, other) : claimed] as const;
  });
  return {
    probability: weight,
    label,
    predicts: pairs.map(([, o]) => nominal(o)),
    shows: pairs.map(([c, o]) => outside(c, o)),
  };
}

/** The conductor is held by nothing: a loaded or zero-seeking look at it shows about 0, continuity shows open. */
function disconnected(claim: Claim, checks: readonly CheckNeed[], belief: Belief): PlanHypothesis {
  const outcome = checks.map((check) => {
    const claimed = expectation(check, belief);
    if (!claimed || !conductorsOf(check).includes(claim.conductor)) return { value: nominal(claimed), shows: false };
    if (check.function === 'continuity') return { value: Number.POSITIVE_INFINITY, shows: !claimed.open };
    return { value: 0, shows: check.function === 'AC volts, low impedance' && claimed.low > 1 };
  });
  return {
    probability: FAULT_PRIOR.disconnected,
    label: message('verify.rules-out.disconnected', { conductor: claim.conductor }),
    predicts: outcome.map((o) => o.value),
    shows: outcome.map((o) => o.shows),
  };
}

/** An open neutral shows as half-way volts to every line and to ground. */
function openNeutral(claim: Claim, checks: readonly CheckNeed[], belief: Belief): PlanHypothesis {
  const seen = checks.map((check) => {
    const claimed = expectation(check, belief);
    const hit = conductorsOf(check).includes(claim.conductor) && check.function.startsWith('AC');
    return { value: hit && claimed ? claimed.nominal * 0.6 + 20 : nominal(claimed), shows: hit && claimed !== null };
  });
  return {
    probability: FAULT_PRIOR['open neutral'],
    label: message('verify.rules-out.open-neutral', { conductor: claim.conductor }),
    predicts: seen.map((s) => s.value),
    shows: seen.map((s) => s.shows),
  };
}

const swappable = (role: Role): boolean =>
  isLine(role) || role === 'grounded conductor' || role === 'positive' || role === 'negative';

/**
 * Ways the map may be wrong, one or two conductors at a time, with probabilities: the alternatives the map itself
 * gives, exchanged conductors, loose ones, open neutrals; the first stands for the map being right.
 */
export function planHypotheses(map: PhaseMap, belief: Belief, checks: readonly CheckNeed[]): PlanHypothesis[] {
  const claims = [...belief.claims.values()];
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
        return alternative(r.probability, label, [{ ...r, conductor }], checks, belief);
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
              checks,
              belief,
            ),
          ]
        : [],
    ),
  );
  const faults = claims.map((claim) => disconnected(claim, checks, belief));
  const neutrals = claims.filter((c) => c.role === 'grounded conductor').map((c) => openNeutral(c, checks, belief));
  const wrong = [...single, ...swaps, ...faults, ...neutrals];
  const odds = wrong.reduce((sum, h) => sum + h.probability, 0);
  const right: PlanHypothesis = {
    probability: 1,
    label: null,
    predicts: checks.map((check) => nominal(expectation(check, belief))),
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
