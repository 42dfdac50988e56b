import { useRef, useState } from 'react';
import type { BoardNumbering, ScheduleField, ScheduleLine } from '../../../flow';
import { faultsOf, type RowFault, withCell } from '../../../record';
import { LongList } from '../../parts/long-list';
import { TextField } from '../../parts/text-field';
import { say } from '../../text/say';
import { t } from '../../text/t';
import type { PartProps } from './part-props';

/** Rows with a complaint that are drawn at once. */
const STEP = 40;

/** Cells that were not clear, each to be entered anew where it stands. What was said of the line stays with it. */
export function FaultList({ work }: Pick<PartProps, 'work'>) {
  const { faults, turnover, board } = work.view;
  const heading = useRef<HTMLHeadingElement>(null);
  const [told, setTold] = useState('');
  if (faults.length === 0 && told === '') return null;
  const lines = new Map(turnover.lines.map((line) => [line.id, line]));
  const enter = (fault: RowFault, text: string): void => {
    const after = withCell(turnover.lines, fault.line, fault.field, text);
    const left = faultsOf(after, board);
    const same = left.find((f) => f.line === fault.line && f.field === fault.field);
    work.change((so) => ({ ...so, lines: withCell(so.lines, fault.line, fault.field, text) }));
    if (same) {
      setTold(t('screen.turnover.cell-still', { what: say(same.message) }));
      return;
    }
    setTold(t('screen.turnover.cell-clear', { field: t(`screen.turnover.field-${fault.field}`), text }));
    // The row is gone, and the field that had the focus with it.
    heading.current?.focus();
  };
  return (
    <section className="stack" aria-labelledby="faults">
      <h2 id="faults" ref={heading} tabIndex={-1}>
        {t('screen.turnover.faults', { count: faults.length })}
      </h2>
      <p role="status">{told}</p>
      {faults.length > 0 && (
        <>
          <p className="soft">{t('screen.turnover.faults-how')}</p>
          <LongList items={faults} step={STEP} className="stack turnover-list">
            {(fault) => {
              const line = lines.get(fault.line);
              return (
                line && (
                  <FaultRow
                    key={`${fault.line}-${fault.field}`}
                    fault={fault}
                    line={line}
                    lines={turnover.lines}
                    board={board}
                    onEnter={(text) => enter(fault, text)}
                  />
                )
              );
            }}
          </LongList>
        </>
      )}
    </section>
  );
}

interface FaultRowProps {
  readonly fault: RowFault;
  readonly line: ScheduleLine;
  readonly lines: readonly ScheduleLine[];
  readonly board: BoardNumbering | undefined;
  readonly onEnter: (text: string) => void;
}

/** Row, column, what is not clear, and the cell; what is typed is read at once. */
function FaultRow({ fault, line, lines, board, onEnter }: FaultRowProps) {
  const kept = line.cells[fault.field] ?? '';
  const [text, setText] = useState(kept);
  const complaint = text === kept ? fault : stillWrong(lines, fault, text, board);
  return (
    <li className="card">
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (text !== kept) onEnter(text);
        }}
      >
        <p>
          <b>{rowWord(line)}</b> {lineWord(line)}
        </p>
        <TextField label={t(`screen.turnover.field-${fault.field}`)} value={text} onChange={setText} />
        <p aria-live="polite">{complaint ? say(complaint.message) : t('screen.turnover.cell-reads')}</p>
        <button type="submit" className="key" disabled={text === kept}>
          {t('screen.turnover.cell-enter')}
        </button>
      </form>
    </li>
  );
}

/** What would still be wrong with the cell; of two lines that claim one place both are looked at. */
const stillWrong = (
  lines: readonly ScheduleLine[],
  { line, field }: RowFault,
  text: string,
  board: BoardNumbering | undefined,
): RowFault | undefined =>
  faultsOf(withCell(lines, line, field, text), board).find((f) => f.line === line && f.field === field);

const rowWord = (line: ScheduleLine): string =>
  line.row === null ? t('screen.turnover.typed-in') : t('screen.turnover.row', { row: line.row });

/** Enough of a line to know it by. */
const KNOWN_BY: readonly ScheduleField[] = ['panel', 'space', 'circuit', 'load'];
const lineWord = (line: ScheduleLine): string => KNOWN_BY.flatMap((field) => line.cells[field] || []).join(', ');
