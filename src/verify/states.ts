import type { CheckCondition, Role } from '../flow';
import { isLine } from './claim';
import { between, centroid, type Phasor, polar, times } from './phasor';
import type { ConductorFault, Potential, State } from './state';
import type { SystemModel } from './system-model';

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
    ...[0.5, 0.65, 0.75].map((k) => times(own, k)),
    ...(a && b ? [0.3, 0.5, 0.7].map((t) => between(a, b, t)) : []),
  ];
}

function spread(
  base: Omit<State, 'weight' | 'potential' | 'fault'>,
  fault: ConductorFault,
  at: readonly Phasor[],
): State[] {
  const weight = FAULT_PRIOR[fault] / Math.max(at.length, 1);
  return at.map((p) => ({ ...base, fault, weight, potential: fixed(p) }));
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

/** Every possibility for a conductor in one system: its roles as they should be, and what can be wrong with them. */
export function statesOf(model: SystemModel): State[] {
  const live = model.points.filter(
    (p) => p.role !== 'grounded conductor' && p.role !== 'equipment grounding conductor',
  );
  const base = (role: Role) => ({ system: model.id, role, bonded: role === 'equipment grounding conductor' });
  const states: State[] = [];
  for (const { role, at } of model.points) {
    const own = base(role);
    const found: State[] = [];
    if (role === 'traveler')
      for (const hot of ['position 1', 'position 2'] as const)
        found.push({ ...own, fault: null, weight: 0.45, potential: travelerPotential(at, hot) });
    else if (role === 'switch leg')
      found.push({ ...own, fault: null, weight: 0.97, potential: switchLegPotential(at) });
    else {
      if (role === 'grounded conductor') {
        const lines = live.map((p) => p.at);
        found.push(...spread(own, 'open neutral', floatPoints(lines)));
        const volts = Math.max(...lines.map((p) => Math.hypot(p.re, p.im)), 0);
        found.push(
          ...spread(
            own,
            'shared neutral',
            [0.07, 0.1, 0.14].map((k) => polar(k * volts, 0)),
          ),
        );
      }
      if (isLine(role) && model.ground === 'bonded')
        found.push(
          ...spread(
            own,
            'lost phase, fed back',
            backFed(
              at,
              live.filter((p) => p.role !== role).map((p) => p.at),
            ),
          ),
        );
      const potential = fixed(role === 'equipment grounding conductor' ? 'ground' : at);
      found.push({ ...own, fault: null, weight: 1, potential });
    }
    if (role !== 'traveler')
      found.push({
        ...own,
        fault: 'disconnected',
        weight: FAULT_PRIOR.disconnected,
        bonded: false,
        potential: fixed('open'),
      });
    states.push(...found);
  }
  return states;
}
