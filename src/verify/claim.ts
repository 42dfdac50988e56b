import type { PhaseMap, Role, SiteKnowledge, SystemId } from '../flow';

/** What the phase map says a conductor is: the statement that the readings must prove or refute. */
export interface Claim {
  readonly conductor: string;
  readonly system: SystemId;
  readonly role: Role;
  readonly probability: number;
}

/** The most probable role of every conductor; conductors without any are left out. */
export function claimsOf(map: PhaseMap): Claim[] {
  return map.assignments.flatMap(({ conductor, roles }) => {
    const first = roles[0];
    return first ? [{ conductor, system: first.system, role: first.role, probability: first.probability }] : [];
  });
}

/** Conductors that share a circuit, cable, tag or breaker with this one. */
export function companions(conductor: string, groups: SiteKnowledge['groups']): ReadonlySet<string> {
  return new Set(groups.filter((g) => g.conductors.includes(conductor)).flatMap((g) => g.conductors));
}

const LINE_ROLES: readonly Role[] = [
  'phase A',
  'phase B',
  'phase C',
  'line 1',
  'line 2',
  'high leg',
  'isolated conductor 1',
  'isolated conductor 2',
  'isolated conductor 3',
];

/** Carries line voltage at all times while supplied. */
export const isLine = (role: Role | 'ground'): boolean => (LINE_ROLES as readonly string[]).includes(role);
