import { type Message, message } from '../../flow';
import { nodesOf } from '../light/posterior';
import type { LightMode, LightPosterior } from '../light/types';
import { calibratedOpinion } from '../naming/calibrate';
import { inferJointly } from '../naming/joint';
import { lostShare } from '../naming/lost';
import { bodyEvidence } from '../naming/name-insulations';
import type { Body } from '../ribbon/body';

/** What a person at the conductor could do about an unsure color. */
export const ACTIONS = [
  'white reference',
  'more light',
  'come closer',
  'wipe and turn it',
  'look at the other end',
] as const;
export type Action = (typeof ACTIONS)[number];

export interface Advice {
  readonly action: Action;
  /** How much surer the best name would be expected to get, 0 to 1. */
  readonly gain: number;
  readonly message: Message;
}

/** What a tapped white leaves open of the light, as variance of its log ratios. */
const KNOWN_LIGHT = 0.0009;
/** What the other end is worth when nothing in the photo explains the doubt: less faded, less dirty. Assumed. */
const OTHER_END = 0.05;

/** Probability of the most probable name of one body alone. */
function surest(body: Body, modes: readonly LightMode[], anchor: number): number {
  const { ladders } = inferJointly({ bodies: [body], evidence: [bodyEvidence(body)], known: [], modes, anchor });
  const { names } = calibratedOpinion(ladders[0]!, lostShare(body));
  return Math.max(...Object.values(names));
}

/**
 * What would help most with a doubtful color, by expected gain, largest first. A reference is worth what knowing the
 * light is worth, averaged over the lights that are possible (expected value of perfect information); the others what
 * the same color would say without the noise, the blur or the unevenness that they remove.
 */
export function advise(body: Body, light: LightPosterior): Advice[] {
  const { modes, anchor } = light;
  const now = surest(body, modes, anchor);
  const underKnownLight = nodesOf(modes).reduce((sum, node) => {
    const known: LightMode = { weight: 1, mean: node.at, cov: [KNOWN_LIGHT, 0, KNOWN_LIGHT] };
    return sum + Math.exp(node.logWeight) * surest(body, [known], anchor);
  }, 0);
  const better = (change: Partial<Body>): number => surest({ ...body, ...change }, modes, anchor);
  const worth: Record<Action, number> = {
    'white reference': underKnownLight - now,
    'more light': better({ noise: Math.min(body.noise, 0.003), usable: 1, count: Math.max(body.count, 200) }) - now,
    'come closer': better({ widthPx: Math.max(body.widthPx, 30), blurPx: Math.min(body.blurPx, 0.7) }) - now,
    'wipe and turn it': better({ scatter: [1e-5, 0, 1e-5], agreement: 1 }) - now,
    'look at the other end': Math.min(OTHER_END, 1 - now),
  };
  return ACTIONS.map((action): Advice => {
    const gain = Math.max(0, worth[action]);
    return { action, gain, message: message(`color.action.${action.replaceAll(' ', '-')}`) };
  }).sort((a, b) => b.gain - a.gain);
}
