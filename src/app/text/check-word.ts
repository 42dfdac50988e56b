import type { Check } from '../../flow';
import { pointWord } from './point-word';
import { t } from './t';

/** A check in one line: both places, the function and what must be arranged before. */
export function checkWord(
  check: Pick<Check, 'from' | 'to' | 'function' | 'condition'>,
  labelOf: (id: string) => string,
): string {
  const between = t('screen.meter.between', { one: pointWord(check.from, labelOf), two: pointWord(check.to, labelOf) });
  const condition = check.condition ? [t(`screen.condition.${check.condition}`)] : [];
  return [between, t(`screen.function.${check.function}`), ...condition].join(' · ');
}
