import type { Role, SiteKnowledge, SystemId, TagWord } from '../../flow';
import { SYSTEMS } from '../data/systems';

const GROUNDED: Role = 'grounded conductor';
const GROUND: Role = 'equipment grounding conductor';

/** Letters and numbers count the lines of a system in its own order. */
const PLACE: Readonly<Record<TagWord, number>> = { A: 0, L1: 0, B: 1, L2: 1, C: 2, L3: 2, N: -1, G: -1 };

/** Does this tag name one line of several? */
export const namesLine = (tag: TagWord): boolean => PLACE[tag] >= 0;

/**
 * The role that a tag names in a system, or null where the system has none of that name: C and L3 in a single phase of
 * two lines, any letter in DC and among switch legs. The grounded corner of a corner-grounded delta is B here; a
 * single line may come from any phase of the board and keep its letter.
 */
export function roleOfTag(tag: TagWord, system: SystemId): Role | null {
  const found = SYSTEMS[system];
  if (!found) return null;
  if (tag === 'G') return found.roles.includes(GROUND) ? GROUND : null;
  const grounded = found.roles.includes(GROUNDED) ? GROUNDED : null;
  if (tag === 'N') return grounded;
  if (found.kind === 'dc' || found.kind === 'auxiliary') return null;
  const lines = found.roles.filter((role) => role !== GROUNDED && role !== GROUND);
  const place = PLACE[tag];
  if (found.kind === 'single line') return lines[0] ?? null;
  if (found.kind === 'corner-grounded delta') return place === 1 ? grounded : (lines[place === 0 ? 0 : 1] ?? null);
  return lines[place] ?? null;
}

/**
 * Share of tags that say something else than what the conductor is. No count was found (common practice, no source). It
 * is set between two neighbors: a tag was put there to tell the phases, which NEC 210.5(C)(1)(a) lets it do instead of
 * colors, so that it outweighs what a color stands for by habit (of sites nobody spoke of, 15 in 100 do not keep to it:
 * `LOOSE`); it is made by hand and stays on the conductor when that is moved, so that it weighs less than the pole the
 * conductor lands on (`SPACE_TRUST`, wrong 1.5 times in 100).
 */
export const TAG_WRONG = 0.05;
/** Of the wrong ones, those that name another line; the rest name neutral or ground for a line, or the other way. */
const ANOTHER_LINE = 0.8;
/** Words of one way of tagging: three lines, neutral, ground. */
const WORDS = 5;
/** A tag with a letter on what has none (a switch leg, control): a mistake, or named after the phase that feeds it. */
const NAMELESS = 0.3;

/** Likelihood ratio of a tag on a conductor of this role; 1 is an average conductor. */
export function tagRatio(tag: TagWord, role: Role, system: SystemId): number {
  if (roleOfTag(tag, system) === role) return (1 - TAG_WRONG) * WORDS;
  const named = role === GROUNDED || role === GROUND || SYSTEMS[system]?.kind !== 'auxiliary';
  if (!named || role === 'unassigned' || SYSTEMS[system]?.kind === 'dc') return NAMELESS;
  const line = role !== GROUNDED && role !== GROUND;
  const share = line && namesLine(tag) ? ANOTHER_LINE / 2 : line ? (1 - ANOTHER_LINE) / 2 : 1 / (WORDS - 1);
  return TAG_WRONG * share * WORDS;
}

/**
 * The tag of a conductor, as far as it says anything beside what else is known: on a pole it says what the conductor was
 * meant to be, and what it is the pole decides, so that there it is left to the findings.
 */
export const tagOf = (id: string, knowledge: Pick<SiteKnowledge, 'tags' | 'spaces'>): TagWord | undefined =>
  knowledge.spaces[id] === undefined ? knowledge.tags?.[id] : undefined;

/** Greatest probability of a phase letter that habit and a tag give alike: no letter is surer than tags are. */
export const TAG_CEILING = 1 - TAG_WRONG;
