import { useState } from 'react';
import { type BoardNumbering, SCHEDULE_FIELDS, type ScheduleField, type ScheduleLine } from '../../../flow';
import { readLine } from '../../../record';
import { TextField } from '../../parts/text-field';
import { say } from '../../text/say';
import { t } from '../../text/t';

interface LineFormProps {
  readonly newId: () => string;
  readonly board: BoardNumbering | undefined;
  readonly onAdd: (line: ScheduleLine) => void;
}

/** Builds the schedule here, line by line; panel, system and colors stay for the next line. */
export function LineForm({ newId, board, onAdd }: LineFormProps) {
  const [cells, setCells] = useState<Readonly<Partial<Record<ScheduleField, string>>>>({});
  const reading = readLine({ id: 'new', row: null, cells, other: {} }, board);
  const begun = Object.values(cells).some((text) => text !== '');
  return (
    <details className="card">
      <summary>{t('screen.turnover.add-line')}</summary>
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          onAdd({ id: `t${newId().slice(0, 8)}`, row: null, cells, other: {} });
          setCells((c) => ({ ...c, space: '', circuit: '', load: '', photo: '' }));
        }}
      >
        <div className="turnover-fields">
          {SCHEDULE_FIELDS.filter((field) => field !== 'photo').map((field) => (
            <TextField
              key={field}
              label={t(`screen.turnover.field-${field}`)}
              value={cells[field] ?? ''}
              onChange={(text) => setCells({ ...cells, [field]: text })}
            />
          ))}
        </div>
        {begun && reading.faults.length > 0 && (
          <ul className="plain-list" role="status">
            {reading.faults.map((fault) => (
              <li key={fault.message.code}>{say(fault.message)}</li>
            ))}
          </ul>
        )}
        <button type="submit" className="key" disabled={!cells.panel?.trim()}>
          {t('screen.turnover.add-line')}
        </button>
      </form>
    </details>
  );
}
