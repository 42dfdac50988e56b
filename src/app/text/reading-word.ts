import type { Reading, ReadingWord } from '../../flow';
import { t } from './t';

/** An answer that is no number, as it is said: OL and the orders of phases are the meter's own words. */
export const answerWord = (value: ReadingWord): string =>
  value === 'tone' || value === 'no tone' ? t(`screen.value.${value}`) : value;

/** A reading's value with its unit. */
export function readingWord(reading: Reading): string {
  const { value } = reading;
  if (typeof value !== 'number') return answerWord(value);
  return t(reading.function === 'continuity' ? 'screen.value.ohms' : 'screen.value.volts', { value });
}
