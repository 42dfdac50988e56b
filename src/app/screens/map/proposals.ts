import type { Assignment, Finding, Role, SystemId } from '../../../flow';
import { roleMarginals } from '../../../identify';

/** A role as the board shows it: its probability over all systems, and the system it most probably belongs to. */
export interface Proposal {
  readonly role: Role;
  readonly system: SystemId;
  readonly probability: number;
}

/** Alternatives below this are left to the conductor's own sheet. */
const WORTH_A_STRAND = 0.03;
const MOST = 5;

/** What a conductor may be, most probable first: always the first, then those worth a strand. */
export function proposals(assignment: Assignment | undefined): readonly Proposal[] {
  if (!assignment) return [];
  return roleMarginals(assignment)
    .map(({ role, probability }) => ({
      role,
      probability,
      system: assignment.roles.find((r) => r.role === role)?.system ?? 'unknown',
    }))
    .filter((p, i) => i === 0 || p.probability >= WORTH_A_STRAND)
    .slice(0, MOST);
}

export const postKey = ({ system, role }: Pick<Proposal, 'system' | 'role'>): string => `${system}/${role}`;
export const frameOf = (post: string): string => post.slice(0, post.indexOf('/'));

/** Findings that concern a conductor and ask for more than notice. */
export const alarmsOf = (findings: readonly Finding[], conductor: string): readonly Finding[] =>
  findings.filter((f) => f.severity !== 'note' && f.conductors.includes(conductor));
