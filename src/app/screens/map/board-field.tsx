import { useId } from 'react';
import { BOARD_ORDERS, type BoardNumbering, type SiteKnowledge } from '../../../flow';
import { MOST_SPACES } from '../../../identify';
import { t } from '../../text/t';

interface BoardFieldProps {
  readonly site: SiteKnowledge;
  /** Takes the whole site, since the usual numbering takes the answer away. */
  readonly onSite: (site: SiteKnowledge) => void;
}

/** How the pole spaces of the board are numbered: the stamp decides, no rule of the United States does. */
export function BoardField({ site, onSite }: BoardFieldProps) {
  const order = useId();
  const { board } = site;
  const put = (next: BoardNumbering | undefined): void => {
    const { board: _, ...rest } = site;
    onSite(next ? { ...rest, board: next } : rest);
  };
  const putRows = (text: string): void => {
    const rows = Number(text);
    const valid = Number.isInteger(rows) && rows >= 1 && rows <= MOST_SPACES;
    put(valid ? { order: 'down', rows } : { order: 'down' });
  };
  return (
    <>
      <label className="field" htmlFor={order}>
        <span>{t('screen.site.board')}</span>
        <select
          id={order}
          value={board?.order ?? ''}
          onChange={(e) => {
            const found = BOARD_ORDERS.find((o) => o === e.target.value);
            put(found && { order: found });
          }}
        >
          <option value="">{t('screen.board.usual')}</option>
          {BOARD_ORDERS.map((o) => (
            <option key={o} value={o}>
              {t(`screen.board.${o}`)}
            </option>
          ))}
        </select>
      </label>
      {board?.order === 'down' && (
        <label className="space">
          <span>{t('screen.site.board-rows')}</span>
          <input
            type="number"
            inputMode="numeric"
            min={1}
            max={MOST_SPACES}
            defaultValue={board.rows ?? ''}
            onBlur={(e) => putRows(e.target.value)}
          />
        </label>
      )}
    </>
  );
}
