import type { CheckCondition, Role } from '../flow';
import { isLine } from './claim';
import { between, centroid, magnitude, type Phasor, polar, times } from './phasor';
import type { ConductorFault, Potential, State } from './state';
import type { ModelPoint, SystemModel } from './system-model';

/**
 * How often each thing is wrong with a conductor of an opened panel. Assumptions: no counted source was found;
 * they only order explanations and checks, no conductor becomes metered by them.
 */
export const FAULT_PRIOR: Readonly<Record<ConductorFault, number>> = {
  disconnected: 0.02,
  'open neutral': 0.01,
  'shared neutral': 0.01,
  'lost phase, fed back': 0.01,
  'grounded line': 0.01,
};

const fixed =
  (at: Potential) =>
  (_condition: CheckCondition | undefined): Potential =>
    at;

/** Where an open neutral can float to: between the lines it serves, by their loads. */
function floatPoints(lines: readonly Phasor[]): Phasor[] {
  const [a, b, c] = lines;
  if (!a || !b) return a ? [times(a, 0.5), times(a, 0.9)] : [];
  if (!c) return [0.12, 0.2, 0.28, 0.36, 0.43, 0.57, 0.64, 0.72, 0.8, 0.88].map((t) => between(a, b, t));
  const middle = centroid(lines);
  const corners = lines.flatMap((p) => [0.25, 0.45, 0.65].map((t) => between(middle, p, t)));
  const sides = lines.flatMap((p) => [0.3, 0.6].map((t) => between(middle, times(p, -0.5), t)));
  return [...corners, ...sides];
}

/** A lost phase takes up what motors and loads of the other phases feed into it: its own angle, lower, or between them. */
function backFed(own: Phasor, others: readonly Phasor[]): Phasor[] {
  const [a, b] = others;
  return [
    ...[0.42, 0.52, 0.62, 0.72].map((k) => times(own, k)),
    ...(a && b ? [0.3, 0.4, 0.5, 0.6, 0.7].map((t) => between(a, b, t)) : []),
  ];
}

/** Where a shared neutral stands: lifted by the other circuit's return current, as shares of the line voltage. */
const SHARED: readonly number[] = [0.07, 0.1, 0.14];

/** Half the spacing of the places listed for a fault, as shares of the line voltage, so that they cover what lies between. */
const BLUR = { 'open neutral': 0.09, 'lost phase, fed back': 0.06, 'shared neutral': 0.02 } as const;

type Own = Pick<State, 'system' | 'role' | 'bonded'>;

function spread(own: Own, fault: keyof typeof BLUR, at: readonly Phasor[], lineVolts: number): State[] {
  const weight = FAULT_PRIOR[fault] / Math.max(at.length, 1);
  return at.map((p) => ({ ...own, fault, weight, blur: BLUR[fault] * lineVolts, potential: fixed(p) }));
}

const travelerPotential =
  (live: Phasor, hotIn: 'position 1' | 'position 2') =>
  (condition: CheckCondition | undefined): Potential => {
    const position = condition === 'position 2' ? 'position 2' : 'position 1';
    return position === hotIn ? live : 'open';
  };

const switchLegPotential =
  (live: Phasor) =>
  (condition: CheckCondition | undefined): Potential =>
    condition === undefined || condition === 'switch on' || condition === 'switch on, both switches moved'
      ? live
      : 'open';

const whole = (own: Own, weight: number, potential: State['potential']): State => ({
  ...own,
  fault: null,
  weight,
  blur: 0,
  potential,
});

function faultsOf(own: Own, at: Phasor, live: readonly ModelPoint[], bonded: boolean): State[] {
  const lineVolts = Math.max(...live.map((p) => magnitude(p.at)), 0);
  const found: State[] = [
    {
      ...own,
      fault: 'disconnected',
      weight: FAULT_PRIOR.disconnected,
      bonded: false,
      blur: 0,
      potential: fixed('open'),
    },
  ];
  if (own.role === 'grounded conductor') {
    const lines = live.map((p) => p.at);
    found.push(...spread(own, 'open neutral', floatPoints(lines), lineVolts));
    const lifted = SHARED.map((k) => polar(k * lineVolts, 0));
    found.push(...spread(own, 'shared neutral', lifted, lineVolts));
  }
  if (isLine(own.role) && bonded) {
    const others = live.filter((p) => p.role !== own.role).map((p) => p.at);
    found.push(...spread(own, 'lost phase, fed back', backFed(at, others), lineVolts));
  }
  return found;
}

/** Every possibility for a conductor in one system: its roles as they should be, and what can be wrong with them. */
export function statesOf(model: SystemModel): State[] {
  const earth: readonly Role[] = ['grounded conductor', 'equipment grounding conductor'];
  const live = model.points.filter((p) => !earth.includes(p.role));
  return model.points.flatMap(({ role, at }): State[] => {
    const own = { system: model.id, role, bonded: role === 'equipment grounding conductor' };
    if (role === 'traveler')
      return (['position 1', 'position 2'] as const).map((hot) => whole(own, 0.5, travelerPotential(at, hot)));
    if (role === 'switch leg') return [whole(own, 1, switchLegPotential(at))];
    const potential = fixed(role === 'equipment grounding conductor' ? 'ground' : at);
    return [whole(own, 1, potential), ...faultsOf(own, at, live, model.ground === 'bonded')];
  });
}
