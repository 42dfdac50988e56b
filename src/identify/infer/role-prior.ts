import type { BoardNumbering, Role } from '../../flow';
import {
  EXTRA_SHARE,
  HIGH_LEG_AGAINST_PHASE,
  NEUTRAL_AGAINST_PHASE,
  NOT_ON_A_BREAKER,
  SPACE_TRUST,
} from '../model/priors';
import { panelKindOf, panelPole } from '../panel/pole';
import type { ExtraWeights } from './beside';
import type { Hypothesis } from './hypothesis';
import { GROUNDED, type Roster } from './members';

/** Priors of conductors of which no pole space is known, by system; asked for once a conductor and hypothesis. */
const SPACELESS = new Map<string, Float64Array>();

/** Prior of the circuit roles of one system for one conductor in a picture of many circuits; sums to at most 1. Not to be changed. */
export function circuitPrior(member: Roster, space: number, onPole: boolean, board?: BoardNumbering): Float64Array {
  if (space > 0) return madePrior(member, space, onPole, board);
  const key = onPole ? `${member.system}/pole` : member.system;
  const made = SPACELESS.get(key) ?? madePrior(member, space, onPole, board);
  SPACELESS.set(key, made);
  return made;
}

function madePrior(member: Roster, space: number, onPole: boolean, board?: BoardNumbering): Float64Array {
  const { roles, hot } = member;
  const neutral = roles.length > hot ? (onPole ? NOT_ON_A_BREAKER : NEUTRAL_AGAINST_PHASE) : 0;
  const out = new Float64Array(roles.length);
  const expected = space > 0 ? expectedRole(member, space, board) : -1;
  let weights = 0;
  for (const role of roles) if (role !== GROUNDED) weights += lineWeight(role);
  for (let r = 0; r < roles.length; r++) {
    const role = roles[r]!;
    if (role === GROUNDED) out[r] = neutral / (weights + neutral);
    else if (expected < 0) out[r] = lineWeight(role) / (weights + neutral);
    else {
      const lines = weights / (weights + neutral);
      out[r] = lines * (r === expected ? SPACE_TRUST : (1 - SPACE_TRUST) / Math.max(1, hot - 1));
    }
  }
  return out;
}

/** How often a line is met beside another of its system, in a picture of many circuits. */
const lineWeight = (role: Role): number => (role === 'high leg' ? HIGH_LEG_AGAINST_PHASE : 1);

function expectedRole(member: Roster, space: number, board?: BoardNumbering): number {
  const kind = panelKindOf(member.system);
  if (!kind) return -1;
  const role: Role = panelPole(space, kind, board);
  return member.roles.indexOf(role);
}

const SHARES = [false, true].map((pole) =>
  [0, EXTRA_SHARE.auxiliary].map((auxiliary) => ({
    ground: EXTRA_SHARE.ground * (pole ? NOT_ON_A_BREAKER : 1),
    foreign: EXTRA_SHARE.foreign,
    auxiliary,
  })),
);

/** Whether an auxiliary system rides along. */
type Company = Pick<Hypothesis, 'auxiliary'>;

/** Share of each extra among all conductors (many circuits). */
export const extraShares = (h: Company, onPole: boolean): ExtraWeights => SHARES[onPole ? 1 : 0]![h.auxiliary ? 1 : 0]!;

const MIXTURES = [false, true].map((pole) =>
  [0, 0.6].map((auxiliary) => ({
    ground: (1 - auxiliary) * 0.92 * (pole ? NOT_ON_A_BREAKER : 1),
    foreign: (1 - auxiliary) * 0.08,
    auxiliary,
  })),
);

/** Share of each extra among the extras (single set). */
export const extraMixture = (h: Company, onPole: boolean): ExtraWeights =>
  MIXTURES[onPole ? 1 : 0]![h.auxiliary ? 1 : 0]!;

/** Likelihood-weighted extras of one conductor by slot, written to `out` from `row` on. */
export function extraTerms(
  h: Hypothesis,
  i: number,
  share: ExtraWeights,
  out: Float64Array,
  row: number,
  slots: { readonly ground: number; readonly foreign: number; readonly auxiliary: number },
): void {
  out[row + slots.ground] = share.ground * h.extras.ground[i]!;
  out[row + slots.foreign] = share.foreign * h.extras.foreign[i]!;
  const aux = h.auxiliary;
  if (!aux) return;
  for (let r = 0; r < aux.roles.length; r++) {
    out[row + slots.auxiliary + r] = (share.auxiliary / aux.roles.length) * aux.ratio[i * aux.roles.length + r]!;
  }
}
