import type { ColorName, Role, SystemId } from '../../flow';
import type { Convention, Force, Look, Scheme, StripeRule } from '../convention';
import type { Jurisdiction, SourceStatus } from '../system';

/** Where a set of lines comes from and what force it has. */
export interface Authority {
  readonly force: Force;
  readonly source: string;
  readonly status: SourceStatus;
}

export const PRACTICE: Force = { kind: 'common practice' };
export const rule = (section: string, edition: string): Force => ({ kind: 'code rule', section, edition });

type LookWord = ColorName | 'bare' | readonly [ColorName, StripeRule];
export type RoleLooks = Readonly<Partial<Record<Role, readonly LookWord[]>>>;

const look = (word: LookWord): Look =>
  typeof word === 'string' ? { color: word } : { color: word[0], stripe: word[1] };

/** Lines of one scheme of one system, all of one authority. */
export function lines(
  jurisdiction: Jurisdiction,
  system: SystemId,
  scheme: Scheme,
  authority: Authority,
  looks: RoleLooks,
  anyOf = false,
): Convention[] {
  return (Object.entries(looks) as [Role, readonly LookWord[]][]).map(([role, words]) => ({
    id: `${system}/${scheme}/${role}`.replaceAll(' ', '-'),
    jurisdiction,
    system,
    scheme,
    role,
    looks: words.map(look),
    anyOf,
    ...authority,
  }));
}
