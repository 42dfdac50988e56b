import type { Check } from '../../flow';
import { leadsWord } from './leads-word';
import { t } from './t';

/** A check in one line: both places, the function and what must be arranged before. */
export function checkWord(
  check: Pick<Check, 'from' | 'to' | 'third' | 'function' | 'condition'>,
  labelOf: (id: string) => string,
): string {
  const condition = check.condition ? [t(`screen.condition.${check.condition}`)] : [];
  return [leadsWord(check, labelOf), t(`screen.function.${check.function}`), ...condition].join(' · ');
}
