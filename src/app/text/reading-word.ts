import type { Reading } from '../../flow';
import { t } from './t';

/** A reading's value with its unit. */
export function readingWord(reading: Reading): string {
  const { value } = reading;
  if (typeof value !== 'number') return value;
  return t(reading.function === 'continuity' ? 'screen.value.ohms' : 'screen.value.volts', { value });
}
