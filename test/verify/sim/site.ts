import type { PhaseMap, Role, RoleProbability, SystemId } from '../../../src/flow';
import type { Chance } from './chance';
import { type At, mix, SUPPLIES, type Supply, scaled, supply } from './supply';

export type Wrong =
  | 'nothing'
  | 'swapped phases'
  | 'reversed polarity'
  | 'neutral and ground exchanged'
  | 'other system'
  | 'disconnected'
  | 'open neutral'
  | 'lost phase'
  | 'shared neutral'
  | 'ground fault';

/** What one conductor really is. */
export interface Wire {
  readonly id: string;
  readonly role: Role;
  /** Volts relative to the zero of the supply; open: connected to nothing at its source. */
  readonly at: At | 'open';
  readonly bonded: boolean;
  /** Not as a conductor of its role should be. */
  readonly faulty: boolean;
}

export interface Site {
  readonly supply: Supply;
  readonly level: number;
  readonly wires: readonly Wire[];
  readonly ground: At;
  readonly poles: Readonly<Partial<Record<Role, At>>>;
  readonly wrong: Wrong;
  readonly map: PhaseMap;
  /** System the map claims. */
  readonly claimed: SystemId;
}

const N: Role = 'grounded conductor';
const G: Role = 'equipment grounding conductor';

/** Maps that a site of the first system is easily mistaken for. */
const LOOKALIKES: Readonly<Record<SystemId, readonly SystemId[]>> = {
  'us-120-240-1ph': ['us-208y120'],
  'us-208y120': ['us-120-240-1ph', 'us-480y277', 'us-240-120-high-leg'],
  'us-480y277': ['us-208y120'],
  'us-240-120-high-leg': ['us-208y120'],
};

const lineRoles = (s: Supply): Role[] => Object.keys(s.lines) as Role[];
const rolesOf = (s: Supply): Role[] => [...lineRoles(s), ...(s.neutral ? [N] : []), G];

/** The i-th line of one system as the i-th of another; lines that have no counterpart stay without a claim. */
const translated = (role: Role, from: Supply, to: Supply): Role | null => {
  if (role === N) return to.neutral ? N : null;
  if (role === G) return G;
  return lineRoles(to)[lineRoles(from).indexOf(role)] ?? null;
};

function said(claims: readonly { id: string; system: SystemId; role: Role }[], chance: Chance): PhaseMap {
  const assignments = claims.map(({ id, system, role }) => {
    const first = chance.between(0.55, 0.97);
    const others = rolesOf(supply(system)).filter((r) => r !== role);
    const rest: RoleProbability[] = others.map((r) => ({ system, role: r, probability: (1 - first) / others.length }));
    return { conductor: id, roles: [{ system, role, probability: first }, ...rest], because: [] };
  });
  const systems = [...new Set(claims.map((c) => c.system))].map((system) => ({ system, probability: 0.9 }));
  return { systems, assignments, eliminated: [], findings: [] };
}

/** Kinds of trouble that a supply can have. */
export function troubles(s: Supply): Wrong[] {
  const found: Wrong[] = ['nothing', 'disconnected'];
  if (lineRoles(s).length > 1) found.push('swapped phases');
  if (s.neutral) found.push('reversed polarity', 'neutral and ground exchanged', 'shared neutral');
  if (s.neutral && s.id !== 'us-240-corner') found.push('open neutral', 'lost phase');
  if (LOOKALIKES[s.id]) found.push('other system');
  if (s.floating) found.push('ground fault');
  return found;
}

function exchange(claims: Map<string, Role>, a: string, b: string): void {
  const [x, y] = [claims.get(a), claims.get(b)];
  if (!x || !y) throw new Error('no such conductor');
  claims.set(a, y);
  claims.set(b, x);
}

/** One invented site: one circuit of every role (`circuits` of the lines), a level, load, and at most one trouble. */
export function makeSite(
  chance: Chance,
  given: { wrong?: Wrong; system?: SystemId; circuits?: number; level?: number } = {},
): Site {
  const real = given.system ? supply(given.system) : chance.pick(SUPPLIES);
  const wrong = given.wrong ?? chance.pick(troubles(real));
  const level = given.level ?? chance.between(0.91, 1.03);
  const lines = lineRoles(real);
  const poles = Object.fromEntries(
    lines.map((role) => [role, scaled(real.lines[role] as At, level * chance.between(0.98, 1.02))]),
  ) as Partial<Record<Role, At>>;
  const ids = new Map<string, Role>();
  for (let k = 0; k < (given.circuits ?? 1); k++) for (const role of lines) ids.set(`w${ids.size + 1}`, role);
  for (const role of rolesOf(real).filter((r) => !lines.includes(r))) ids.set(`w${ids.size + 1}`, role);
  const lineIds = [...ids].filter(([, r]) => lines.includes(r)).map(([id]) => id);
  const base = Math.max(...lines.map((r) => Math.hypot(...(real.lines[r] as At)))) * level;
  const neutralId = [...ids].find(([, r]) => r === N)?.[0];
  const groundId = [...ids].find(([, r]) => r === G)?.[0] as string;
  const claims = new Map(ids);
  const faults = new Map<string, At | 'open'>();
  let ground: At = [0, 0];
  if (real.floating) {
    const lean = chance.pick(lines);
    ground = mix([0, 0], poles[lean] as At, chance.between(0, 0.25));
  }
  let claimed = real.id;
  const one = chance.pick(lineIds);
  if (wrong === 'swapped phases') {
    const others = lineIds.filter((id) => ids.get(id) !== ids.get(one));
    exchange(claims, one, chance.pick(others));
  } else if (wrong === 'reversed polarity') exchange(claims, one, neutralId as string);
  else if (wrong === 'neutral and ground exchanged') exchange(claims, groundId, neutralId as string);
  else if (wrong === 'other system') claimed = chance.pick(LOOKALIKES[real.id] as SystemId[]);
  else if (wrong === 'disconnected') faults.set(chance.pick([...ids.keys()]), 'open');
  else if (wrong === 'open neutral') {
    const [a, b, c] = lines.map((r) => poles[r] as At);
    const side = mix(a as At, b as At, chance.pick([chance.between(0.1, 0.4), chance.between(0.6, 0.9)]));
    faults.set(neutralId as string, c ? mix(side, c, chance.between(0, 0.25)) : side);
  } else if (wrong === 'lost phase') {
    const role = ids.get(one) as Role;
    const [x, y] = lines.filter((r) => r !== role).map((r) => poles[r] as At);
    const through = x && y && chance.next() < 0.5 ? mix(x, y, chance.between(0.3, 0.7)) : null;
    faults.set(one, through ?? scaled(poles[role] as At, chance.between(0.4, 0.75)));
  } else if (wrong === 'shared neutral') faults.set(neutralId as string, [base * chance.between(0.08, 0.14), 0]);
  else if (wrong === 'ground fault') ground = poles[chance.pick(lines)] as At;
  const wires = [...ids].map(([id, role]): Wire => {
    const fault = faults.get(id);
    const drop: At = [base * chance.between(0, 0.015), 0];
    const whole = role === G ? ground : role === N ? drop : (poles[role] as At);
    return { id, role, at: fault ?? whole, bonded: role === G && fault !== 'open', faulty: fault !== undefined };
  });
  const target = supply(claimed);
  const listed = wires.flatMap(({ id }) => {
    const role = translated(claims.get(id) as Role, real, target);
    return role ? [{ id, system: claimed, role }] : [];
  });
  return { supply: real, level, wires, ground, poles, wrong, map: said(listed, chance), claimed };
}
