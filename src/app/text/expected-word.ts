import type { ExpectedReading } from '../../flow';
import { measured } from './numbers';
import { t } from './t';

/** What the meter should show if a hypothesis holds, with the band that still agrees. */
export function expectedWord(expected: ExpectedReading, continuity: boolean): string {
  if (expected.rotation) return expected.rotation;
  if (expected.open) return t('screen.expected.open');
  const values = { nominal: measured(expected.nominal), low: measured(expected.low), high: measured(expected.high) };
  return t(continuity ? 'screen.expected.ohms' : 'screen.expected.volts', values);
}
