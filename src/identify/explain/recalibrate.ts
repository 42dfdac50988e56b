import type { Role, RoleProbability } from '../../flow';
import { COLOR_CANNOT_DECIDE } from '../model/priors';
import { roleMarginals } from './read';

/**
 * The posterior is too modest of what kind of conductor this is: real companies of conductors hang together more than the
 * model knows, so that on invented sites a phase given 0.7 is right in nine of ten cases. Which of its kind it is, is
 * another matter: a black of two-wire cable is line 1 or line 2 like a coin, and the model says so. So the kinds are
 * sharpened by one power and the roles within a kind by a smaller one. One map for both had either left the former modest
 * or made the latter sure. Where switch legs or control may ride along, any color may be one and the company tells less;
 * where they are likely it tells nothing, and nothing is sharpened. What stands above 0.9 needs less.
 *
 * Fitted on seeds 70001 and 80001 of `test/identify/measure/sites.ts`, which no reported figure uses, and valid for that
 * population only; no survey of real sites was found. Nothing is ever lifted across 0.9: that stays the model's own doing.
 */
const POWERS = [
  { upTo: 0.1, kind: 1.5, within: 1.3, whenSure: 1.15 },
  { upTo: 0.3, kind: 1.4, within: 1, whenSure: 1 },
] as const;

/** Roles that company tells from others, but hardly from each other. */
const kindOf = (role: Role): string =>
  role === 'isolated ground'
    ? 'equipment grounding conductor'
    : role === 'high leg'
      ? 'phase'
      : (/^(phase|line|isolated)/.exec(role)?.[0] ?? role);

/**
 * Sharpens the roles of one conductor: lifts the likeliest and takes what that costs from the others and from what is
 * unnamed, in proportion, so that the order stays and no rare role is lost. `riders`: probability that switch legs or
 * control are in the picture.
 */
export function recalibrated(roles: readonly RoleProbability[], riders: number): readonly RoleProbability[] {
  const marginals = roleMarginals({ roles });
  const [top] = marginals;
  const usual = POWERS.find((p) => riders < p.upTo);
  if (!usual || !top || top.probability >= 1) return roles;
  const sure = top.probability > COLOR_CANNOT_DECIDE;
  const { kind, within } = sure ? { kind: usual.whenSure, within: usual.whenSure } : usual;
  const kinds = new Map<string, number>();
  let alike = 0;
  for (const m of marginals) {
    kinds.set(kindOf(m.role), (kinds.get(kindOf(m.role)) ?? 0) + m.probability);
    if (kindOf(m.role) === kindOf(top.role)) alike += m.probability ** within;
  }
  const unnamed = Math.max(0, 1 - marginals.reduce((sum, m) => sum + m.probability, 0));
  let whole = unnamed ** kind;
  for (const p of kinds.values()) whole += p ** kind;
  const sharp = (kinds.get(kindOf(top.role))! ** kind / whole) * (top.probability ** within / alike);
  const lifted = Math.max(top.probability, Math.min(sure ? 1 : COLOR_CANNOT_DECIDE, sharp));
  const left = (1 - lifted) / (1 - top.probability);
  return roles.map((r) => ({
    ...r,
    probability: r.probability * (r.role === top.role ? lifted / top.probability : left),
  }));
}
