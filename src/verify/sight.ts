import type { Reading, Role, TestPoint } from '../flow';
import { SYSTEMS } from '../identify';
import { isLine } from './claim';
import type { Sight } from './likelihood';
import { type Phasor, volts, ZERO } from './phasor';
import { isDirect } from './plausible';
import type { Potential, State } from './state';
import type { VariantCore } from './variant';

interface Held {
  readonly potential: Potential;
  /** Null: belongs to every system. */
  readonly system: string | null;
  readonly role: Role | 'ground';
  readonly blur: number;
}

const BLIND: Sight = { kind: 'blind' };

function fixedEnd(point: TestPoint, variant: VariantCore): Held | null {
  if (point.kind === 'ground') return { potential: 'ground', system: null, role: 'ground', blur: 0 };
  if (point.kind === 'neutral bar') return { potential: 'ground', system: null, role: 'grounded conductor', blur: 0 };
  if (point.kind !== 'pole') return null;
  const model = variant.systems.find((s) => s.id === point.system);
  const found = model?.points.find((p) => p.role === point.role);
  if (!found) {
    // The pole is marked in terms of another system; its place in the order of poles still means something.
    const order = SYSTEMS[point.system]?.roles.filter(isLine) ?? [];
    const poles = variant.systems[0]?.points.filter((p) => isLine(p.role)) ?? [];
    const other = poles[order.indexOf(point.role)];
    return other && variant.systems[0]
      ? { potential: other.at, system: variant.systems[0].id, role: other.role, blur: 0 }
      : null;
  }
  return { potential: found.at, system: point.system, role: point.role, blur: 0 };
}

const held = (state: State, reading: Reading): Held => ({
  potential: state.potential(reading.condition),
  system: SYSTEMS[state.system]?.kind === 'auxiliary' ? null : state.system,
  role: state.role,
  blur: state.blur,
});

/** Do the two belong to one system, as far as a voltage between them is concerned? */
const joined = (a: Held, b: Held): boolean =>
  a.system === null || b.system === null || a.system === b.system || isEarth(a) || isEarth(b);

const isEarth = (h: Held): boolean =>
  h.potential === 'ground' || (h.potential !== 'open' && Math.hypot(h.potential.re, h.potential.im) < 1);

function between(a: Held, b: Held, reading: Reading, variant: VariantCore): Sight {
  const reach = Math.max(...variant.systems.map((s) => s.maxVolts));
  if (a.potential === 'open' || b.potential === 'open') return { kind: 'open', reach };
  const at = (p: Phasor | 'ground'): Phasor => (p === 'ground' ? variant.ground : p);
  const [x, y] = [at(a.potential), at(b.potential)];
  if (!joined(a, b)) {
    const [u, v] = [volts(x, ZERO), volts(y, ZERO)];
    return { kind: 'angle', low: Math.abs(u - v), high: u + v };
  }
  const owner = variant.systems.find((s) => s.id === a.system || s.id === b.system) ?? variant.systems[0];
  if (!owner) return BLIND;
  const floating = owner.ground === 'floating';
  const loose = floating && (a.potential === 'ground') !== (b.potential === 'ground');
  const live = owner.points.map((p) => volts(p.at, variant.ground)).filter((u) => u > 1);
  const base = Math.min(owner.maxVolts, ...live);
  const blur = Math.hypot(a.blur, b.blur);
  const direct = owner.current === 'DC';
  if (direct !== isDirect(reading))
    return { kind: 'volts', nominal: 0, base: 40, loose: false, side: owner.maxVolts, blur: 0 };
  return { kind: 'volts', nominal: direct ? x.re - y.re : volts(x, y), base, loose, side: owner.maxVolts, blur };
}

function ohms(reading: Reading, states: readonly (State | null)[]): Sight {
  const one = states.find((s) => s !== null);
  const grounded = reading.from.kind === 'ground' || reading.to.kind === 'ground';
  if (!one || !grounded || states.filter((s) => s !== null).length !== 1) return BLIND;
  if (reading.condition === 'supply off, both ends lifted') return { kind: 'ohms', closed: false };
  return { kind: 'ohms', closed: reading.condition === 'supply off, far end bonded' || one.bonded };
}

function rotation(ends: readonly Held[], variant: VariantCore): Sight {
  const [x, y, z] = ends.map((e) => (e.potential === 'ground' ? variant.ground : e.potential));
  if (!x || !y || !z || x === 'open' || y === 'open' || z === 'open') return BLIND;
  const turn = (y.re - x.re) * (z.im - x.im) - (y.im - x.im) * (z.re - x.re);
  return Math.abs(turn) < 1 ? BLIND : { kind: 'rotation', order: turn < 0 ? 'ABC' : 'CBA' };
}

/**
 * What the meter would see if the conductors were in these states. `states` stands for the leads in order
 * (from, to, third); null where a lead is on a fixed place.
 */
export function sightOf(reading: Reading, states: readonly (State | null)[], variant: VariantCore): Sight {
  if (reading.function === 'continuity') return ohms(reading, states);
  const points = [reading.from, reading.to, ...(reading.third ? [reading.third] : [])];
  const ends: Held[] = [];
  for (const [i, point] of points.entries()) {
    const state = states[i];
    const end = state ? held(state, reading) : fixedEnd(point, variant);
    if (!end) return BLIND;
    ends.push(end);
  }
  const [a, b] = ends;
  if (reading.function === 'phase rotation') return rotation(ends, variant);
  return a && b ? between(a, b, reading, variant) : BLIND;
}
