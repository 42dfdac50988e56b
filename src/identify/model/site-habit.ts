import type { Role, SiteKnowledge, SystemId } from '../../flow';
import { CONVENTIONS } from '../data/conventions';
import { COLOR_CANNOT_DECIDE, type Strictness } from './priors';
import { namesLine } from './tag';

/** Lines that color tells apart by habit only where no rule names their colors. */
export const isNumbered = (role: Role): boolean => role.startsWith('phase') || role.startsWith('line');

/**
 * Sites whose colors tell the system but not the phase (number tags do, or nobody cared). No survey was found; the
 * sizes are assumptions of ours. Where a rule gives each phase its color (CEC 4-036, BS 7671 table 51) they are few.
 * In the United States phase colors are habit: NEC 210.5(C)(1) asks for identification by phase only where more
 * than one supply is present, and lets tags do it.
 */
const LOOSE = { rule: 0.04, habit: 0.15 } as const;
/**
 * The same where the user tied conductors by a tag or read a phase on one: somebody here numbers them, and NEC 210.5(C)(1)(a) lets tagging stand in
 * for color coding, so that colors may have been left alone. Which of the two tells the phases is an even bet until the user
 * says so (an assumption of ours).
 */
const LOOSE_TAGGED = { rule: 0.08, habit: 0.5 } as const;
const CARELESS = 0.04;
/** Sites where all lines are black, among those whose colors do not tell the phase (assumption of ours). */
const ALIKE = 0.15;
/** What is left of the other way when the user has said how phases are told here. */
const SAID = 0.02;

/** Systems whose lines have their colors from a code rule. */
const BY_RULE: ReadonlySet<SystemId> = new Set(
  CONVENTIONS.filter((c) => c.scheme === 'habit' && isNumbered(c.role) && c.force.kind === 'code rule').map(
    (c) => c.system,
  ),
);

/** Do the colors of this system's lines rest on habit alone? */
export const linesByHabit = (system: SystemId): boolean => !BY_RULE.has(system);

type Tagged = Partial<Pick<SiteKnowledge, 'groups' | 'tags'>>;

const hasReadTags = ({ tags = {} }: Tagged): boolean => Object.values(tags).some(namesLine);

const hasTags = (knowledge: Tagged): boolean =>
  hasReadTags(knowledge) || (knowledge.groups?.some((g) => g.kind === 'tag') ?? false);

/**
 * Greatest probability of a phase letter that rests on habit alone. Three colors on three lines fit habit and hazard
 * alike, so no picture tells a tagged site from another: of the sites with tags, `LOOSE_TAGGED.habit` land their colors
 * anyhow and are right one time in three. Where tags were read, what they say of the colors counts: `loose` is the
 * probability, after all that was seen, that colors do not tell the phase here.
 */
export function letterCeiling(knowledge: Pick<SiteKnowledge, 'groups' | 'tags'>, loose: number): number {
  const share = hasReadTags(knowledge) ? loose : LOOSE_TAGGED.habit;
  return hasTags(knowledge) ? Math.min(COLOR_CANNOT_DECIDE, 1 - (2 / 3) * share) : COLOR_CANNOT_DECIDE;
}

/** How strictly a site that holds these systems follows the colors; sums to 1. */
export function strictnessPrior(
  systems: readonly SystemId[],
  knowledge: Partial<Pick<SiteKnowledge, 'phasesBy' | 'groups' | 'tags'>>,
): Readonly<Record<Strictness, number>> {
  const rates = hasTags(knowledge) ? LOOSE_TAGGED : LOOSE;
  const usual = systems.some(linesByHabit) ? rates.habit : rates.rule;
  const loose = knowledge.phasesBy === 'color' ? SAID : knowledge.phasesBy === 'tag' ? 1 - SAID - CARELESS : usual;
  return { strict: 1 - loose - CARELESS, loose: (1 - ALIKE) * loose, alike: ALIKE * loose, careless: CARELESS };
}
