import type { Finding, Message, NamedConductor, Severity, SiteKnowledge, SystemId } from '../../flow';
import { message } from '../../flow';
import { SYSTEMS } from '../data/systems';
import type { Seen } from '../explain/read';
import type { Posterior } from '../infer/posterior';
import type { Rule } from './rules';

/** What every finding looks at. `seen` is in order of conductor id. */
export interface FindingScene {
  readonly seen: readonly Seen[];
  readonly found: Posterior;
  readonly knowledge: SiteKnowledge;
}

/** One kind of finding. */
export type Finder = (scene: FindingScene) => readonly Finding[];

/** Builds a finding; its sentence has the code `identify.finding.` + code. */
export function finding(
  code: string,
  severity: Severity,
  conductors: readonly NamedConductor[],
  rule: Rule,
  values?: Message['values'],
): Finding {
  return {
    code,
    severity,
    message: message(`identify.finding.${code}`, values),
    conductors: conductors.map((c) => c.id),
    rule: rule.rule,
    ruleStatus: rule.ruleStatus,
  };
}

/** A role or system at least this probable is spoken of in a finding. */
export const LIKELY = 0.5;

/** Supply systems that are probably here. */
export const likelySystems = ({ found }: Pick<FindingScene, 'found'>): SystemId[] =>
  [...found.systems]
    .filter(([id, p]) => p >= LIKELY && SYSTEMS[id]?.kind !== 'auxiliary')
    .map(([id]) => id)
    .sort();

/** Colors of the North American rules apply. */
export const northAmerica = (knowledge: SiteKnowledge): boolean =>
  knowledge.jurisdiction === 'US' || knowledge.jurisdiction === 'CA';

/** Lands on a pole: has a pole space or belongs to a breaker. */
export function onPole(seen: Seen, knowledge: SiteKnowledge): boolean {
  const { id } = seen.conductor;
  return (
    knowledge.spaces[id] !== undefined ||
    knowledge.groups.some((g) => g.kind === 'breaker' && g.conductors.includes(id))
  );
}

export const isUngrounded = (seen: Seen): boolean =>
  seen.role !== 'grounded conductor' && !isGrounding(seen) && seen.role !== 'unassigned';

/** An equipment grounding conductor, the isolated one of a receptacle among them. */
export const isGrounding = (seen: Seen): boolean =>
  seen.role === 'equipment grounding conductor' || seen.role === 'isolated ground';

export const insulated = (seen: Seen): boolean =>
  seen.conductor.covering === 'insulated' || seen.conductor.userWord !== undefined;
