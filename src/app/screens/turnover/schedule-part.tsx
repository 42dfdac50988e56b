import { useState } from 'react';
import { type BoardNumbering, Problem, SCHEDULE_FIELDS, type ScheduleField, type ScheduleLine } from '../../../flow';
import { type ColumnMap, layoutKey, readSchedule, readTable, type SheetTable, suggestColumns } from '../../../record';
import { FileKey } from '../../parts/file-key';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { columnsOf, rememberColumns } from '../../services/remembered-columns';
import { toProblem } from '../../state/to-problem';
import { say } from '../../text/say';
import { t } from '../../text/t';
import { FaultList } from './fault-list';
import { LineForm } from './line-form';
import type { PartProps } from './part-props';
import { TurnoverPage } from './turnover-page';

/** The schedule: from a file, from a pasted table, or line by line. */
export function SchedulePart({ job, work }: PartProps) {
  const { newId } = useServices();
  const [sheet, setSheet] = useState<SheetTable | null>(null);
  const [pasted, setPasted] = useState('');
  const [problem, setProblem] = useState<Problem | null>(null);
  const { lines } = work.view.turnover;

  const read = (text: string): void => {
    try {
      setProblem(null);
      setSheet(readTable(text));
    } catch (error) {
      setProblem(toProblem(error));
    }
  };
  const add = (more: readonly ScheduleLine[]): void => {
    work.change((turnover) => ({ ...turnover, lines: [...turnover.lines, ...more] }));
    setSheet(null);
    setPasted('');
  };
  return (
    <TurnoverPage job={job} title={t('screen.turnover.schedule')} current="schedule">
      {problem && <ProblemNote problem={problem} />}
      {sheet ? (
        <Mapping
          sheet={sheet}
          board={job.site.board}
          onTake={add}
          onLeave={() => setSheet(null)}
          prefix={`s${newId().slice(0, 8)}-`}
        />
      ) : (
        <>
          <section className="card stack">
            <FileKey
              accept=".csv,.tsv,.txt,text/csv,text/plain"
              className="key main wide"
              onFile={(file) => {
                file
                  .text()
                  .then(read, () =>
                    setProblem(new Problem('schedule unreadable', { detail: 'record.schedule.binary' })),
                  );
              }}
            >
              {t('screen.turnover.schedule-file')}
            </FileKey>
            <label className="field">
              <span>{t('screen.turnover.paste')}</span>
              <textarea rows={4} value={pasted} onChange={(e) => setPasted(e.target.value)} />
            </label>
            <button type="button" className="key" disabled={pasted.trim() === ''} onClick={() => read(pasted)}>
              {t('screen.turnover.read-pasted')}
            </button>
          </section>
          <LineForm onAdd={(line) => add([line])} newId={newId} board={job.site.board} />
          <Lines lines={lines} work={work} />
          {lines.length > 0 && <FaultList work={work} />}
        </>
      )}
    </TurnoverPage>
  );
}

interface MappingProps {
  readonly sheet: SheetTable;
  readonly board: BoardNumbering | undefined;
  readonly prefix: string;
  readonly onTake: (lines: readonly ScheduleLine[]) => void;
  readonly onLeave: () => void;
}

/** Most rows with a complaint that are listed at once; the rest is counted. */
const LISTED = 100;

function Mapping({ sheet, board, prefix, onTake, onLeave }: MappingProps) {
  const key = layoutKey(sheet.heading);
  const [columns, setColumns] = useState<ColumnMap>(() => columnsOf(key) ?? suggestColumns(sheet.heading));
  const [id] = useState(prefix);
  const { lines, faults } = readSchedule(sheet, columns, id, board);
  const set = (field: ScheduleField, at: number | null): void => {
    const { [field]: _, ...others } = columns;
    setColumns(at === null ? others : { ...others, [field]: at });
  };
  return (
    <section className="card stack" aria-labelledby="mapping">
      <h2 id="mapping">{t('screen.turnover.columns')}</h2>
      <p className="soft">{t('screen.turnover.columns-how')}</p>
      <div className="turnover-fields">
        {SCHEDULE_FIELDS.map((field) => (
          <label key={field} className="field">
            <span>{t(`screen.turnover.field-${field}`)}</span>
            <select
              value={columns[field] ?? ''}
              onChange={(e) => set(field, e.target.value === '' ? null : Number(e.target.value))}
            >
              <option value="">{t('screen.turnover.no-column')}</option>
              {sheet.heading.map((heading, k) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: headings repeat, their places do not
                <option key={k} value={k}>
                  {heading || k + 1}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      <p role="status">{t('screen.turnover.lines-read', { count: lines.length, faults: faults.length })}</p>
      {faults.length > 0 && (
        <ul className="plain-list">
          {faults.slice(0, LISTED).map((fault) => (
            <li key={`${fault.line}-${fault.message.code}`}>
              {t('screen.turnover.row', { row: fault.row ?? 0 })} {say(fault.message)}
            </li>
          ))}
          {faults.length > LISTED && <li>{t('screen.turnover.more', { count: faults.length - LISTED })}</li>}
        </ul>
      )}
      <div className="row">
        <button type="button" className="key" onClick={onLeave}>
          {t('screen.turnover.leave')}
        </button>
        <button
          type="button"
          className="key main"
          onClick={() => {
            rememberColumns(key, columns);
            onTake(lines);
          }}
        >
          {t('screen.turnover.take', { count: lines.length })}
        </button>
      </div>
    </section>
  );
}

function Lines({ lines, work }: Pick<PartProps, 'work'> & { readonly lines: readonly ScheduleLine[] }) {
  const [asking, setAsking] = useState(false);
  if (lines.length === 0) return <p className="soft">{t('screen.turnover.no-lines')}</p>;
  return (
    <section className="card stack">
      <p>{t('screen.turnover.lines', { count: lines.length, terminations: work.view.compared.length })}</p>
      {asking ? (
        <div className="row" role="alertdialog" aria-label={t('screen.turnover.clear')}>
          <button type="button" className="key" onClick={() => setAsking(false)}>
            {t('screen.turnover.leave')}
          </button>
          <button
            type="button"
            className="key"
            onClick={() => {
              work.change((turnover) => ({ ...turnover, lines: [] }));
              setAsking(false);
            }}
          >
            {t('screen.turnover.clear')}
          </button>
        </div>
      ) : (
        <button type="button" className="key" onClick={() => setAsking(true)}>
          {t('screen.turnover.clear')}
        </button>
      )}
    </section>
  );
}
