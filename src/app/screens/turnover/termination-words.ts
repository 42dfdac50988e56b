import type { Comparison, Severity, Termination } from '../../../flow';
import { say } from '../../text/say';
import { t } from '../../text/t';

/** "LP1, space 7, pole" and what is landed there. */
export const placeWord = (item: Termination): string => {
  const part = say({ code: `record.report.part-${item.part}` });
  return item.space === null
    ? t('screen.turnover.place', { panel: item.panel, circuit: item.circuit, part })
    : t('screen.turnover.place-space', { panel: item.panel, space: item.space, part });
};

export const resultWord = (comparison: Comparison): string =>
  say({ code: `record.report.result-${comparison.replaceAll(' ', '-')}` });

export const severityWord = (severity: Severity): string => say({ code: `record.report.severity-${severity}` });
