import type { Check } from '../../flow';
import { pointWord } from './point-word';
import { t } from './t';

/** Where the leads of a check or reading go, in their order: two places, or three for a rotation. */
export function leadsWord(
  { from, to, third }: Pick<Check, 'from' | 'to' | 'third'>,
  labelOf: (conductor: string) => string,
): string {
  const [one, two] = [pointWord(from, labelOf), pointWord(to, labelOf)];
  if (!third) return t('screen.meter.between', { one, two });
  return t('screen.meter.between-three', { one, two, three: pointWord(third, labelOf) });
}
