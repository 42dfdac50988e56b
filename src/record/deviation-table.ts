import { say } from '../words';
import { deviationText, type TurnoverView } from './compare';
import { csvText } from './csv';

const COLUMNS = ['severity', 'panel', 'space', 'circuit', 'part', 'what', 'assigned', 'closed'] as const;

/** Open and closed deviations as CSV (RFC 4180), worst first. */
export function deviationTable({ deviations, compared, turnover }: TurnoverView): string {
  const terminations = new Map(compared.map(({ termination: t }) => [t.id, t]));
  const rows = deviations.map((d) => {
    const t = d.termination === null ? undefined : terminations.get(d.termination);
    const handled = turnover.handled[d.id];
    const closed = handled?.closed ? `${handled.closed.by} ${handled.closed.at}` : '';
    const place = [d.panel, t?.space ?? '', t?.circuit ?? '', t?.part ?? ''];
    return [d.severity, ...place, deviationText(d, say), handled?.assigned?.to ?? '', closed];
  });
  return csvText([COLUMNS.map((column) => say({ code: `record.deviation-csv.${column}` })), ...rows]);
}
