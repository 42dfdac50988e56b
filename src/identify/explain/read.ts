import type { Assignment, ColorName, NamedConductor, Role, SystemId } from '../../flow';

/** A conductor as findings and explanations speak of it. */
export interface Seen {
  readonly conductor: NamedConductor;
  /** The user's word, else the most probable name. */
  readonly color: ColorName;
  /** Probability of that name, 0 to 1. */
  readonly sure: number;
  /** Color of the surest tape, or null. */
  readonly tape: ColorName | null;
  readonly stripe: ColorName | null;
  readonly role: Role;
  /** Probability of the role over all systems, 0 to 1. */
  readonly roleProbability: number;
  /** Most probable system of that role. */
  readonly system: SystemId;
}

/** Stripes and tape below this confidence are not spoken of as seen. */
const SEEN = 0.5;
/** A color that at least this much of the probability lies on is spoken of as plain fact of the reading. */
export const SURE = 0.8;

/** Roles with their probabilities over all systems, most probable first. */
export function roleMarginals(assignment: Pick<Assignment, 'roles'>): { role: Role; probability: number }[] {
  const sums = new Map<Role, number>();
  for (const { role, probability } of assignment.roles) sums.set(role, (sums.get(role) ?? 0) + probability);
  return [...sums]
    .map(([role, probability]) => ({ role, probability }))
    .sort((a, b) => b.probability - a.probability || (a.role < b.role ? -1 : 1));
}

export function colorOf(c: NamedConductor): { color: ColorName; sure: number } {
  const word = c.userWord?.name;
  if (word !== undefined && word !== 'not decided') return { color: word, sure: 0.99 };
  const { best, confidence } = c.insulation;
  return { color: best, sure: word === 'not decided' ? Math.min(0.5, confidence) : confidence };
}

export function see(conductor: NamedConductor, assignment: Assignment): Seen {
  const top = roleMarginals(assignment)[0] ?? { role: 'unassigned' as const, probability: 0 };
  const said = conductor.userWord?.stripe;
  const found = conductor.stripe && conductor.stripe.confidence >= SEEN ? conductor.stripe.name : null;
  const tapes = [...conductor.tape].sort((a, b) => b.confidence - a.confidence);
  const seenTape = tapes[0] && tapes[0].confidence >= SEEN ? tapes[0].name : null;
  const saidTape = conductor.userWord?.tape;
  return {
    conductor,
    ...colorOf(conductor),
    tape: saidTape === undefined ? seenTape : saidTape,
    stripe: said === undefined ? found : said,
    role: top.role,
    roleProbability: top.probability,
    system: assignment.roles.find((r) => r.role === top.role)?.system ?? 'unknown',
  };
}
