import { ROLES } from '../../../flow';
import { CONVENTIONS, type Convention, type Jurisdiction, SYSTEMS } from '../../../identify';
import { colorWord, roleWord, systemWord } from '../../text/names';
import { t } from '../../text/t';

/** Letters only: "marrón" is found by "marron", "GN-YE" by "gnye". */
const plain = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** How one line of a convention may look, in words. */
export const lookWords = (line: Convention): string[] =>
  line.looks.map(({ color, stripe }) => {
    const base = color === 'bare' ? t('screen.colors.bare') : colorWord(color);
    if (!stripe) return base;
    return t('screen.color.striped', {
      color: base,
      stripe: stripe === 'distinctive' ? t('screen.colors.distinctive') : colorWord(stripe),
    });
  });

/** What a line rests on: the section of a code, a place, or habit. */
export function forceWord({ force }: Convention): string {
  if (force.kind === 'code rule') return t('screen.colors.rule', { section: force.section, edition: force.edition });
  return force.kind === 'local' ? t('screen.colors.local', { place: force.place }) : t('screen.colors.practice');
}

const SYSTEM_ORDER = Object.keys(SYSTEMS);

/** As a book would have them: system by system, and in each the ungrounded conductors first. */
const inOrder = (a: Convention, b: Convention): number =>
  SYSTEM_ORDER.indexOf(a.system) - SYSTEM_ORDER.indexOf(b.system) || ROLES.indexOf(a.role) - ROLES.indexOf(b.role);

/** Lines of one jurisdiction in which every word asked for occurs, in the language of the screen. */
export function findConventions(jurisdiction: Jurisdiction, asked: string): Convention[] {
  const words = plain(asked).split(/\s+/).filter(Boolean);
  return CONVENTIONS.filter((line) => {
    if (line.jurisdiction !== jurisdiction) return false;
    const text = plain(
      [systemWord(line.system), roleWord(line.role), ...lookWords(line), forceWord(line), line.source].join(' '),
    );
    return words.every((word) => text.includes(word));
  }).sort(inOrder);
}
