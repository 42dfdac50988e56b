import { type ColorName, isColorName, type NamedConductor, type Role } from '../../../flow';
import { panelKindOf } from '../../../identify';
import type { PhotoView } from '../../state/use-photo-view';
import { roleWord, systemWord } from '../../text/names';
import { t } from '../../text/t';
import { type PanelRow, panelRows } from './panel-rows';

const ROW = 44;
const RAIL = 26;
const ARM = 96;
const TAG = 34;

/** The panel's spaces on its bus rails, once a conductor's space is known: a bead shows which rail feeds the row. */
export function PanelDrawing({ view }: { readonly view: PhotoView }) {
  const system = view.map.systems.find((s) => panelKindOf(s.system))?.system;
  const kind = system ? panelKindOf(system) : null;
  const rows = kind ? panelRows(view.map.assignments, kind) : [];
  if (!system || rows.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="panel">
      <h2 id="panel">{t('screen.panel.title', { system: systemWord(system) })}</h2>
      <p className="soft">{t('screen.panel.numbering')}</p>
      <Spine rows={rows} view={view} />
      <table className="unseen">
        <caption>{t('screen.panel.title', { system: systemWord(system) })}</caption>
        <thead>
          <tr>
            <th scope="col">{t('screen.panel.space')}</th>
            <th scope="col">{t('screen.panel.pole')}</th>
            <th scope="col">{t('screen.col.number')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.flatMap((r) =>
            [r.left, r.right].map((side) => (
              <tr key={side.space}>
                <td>{side.space}</td>
                <td>{roleWord(r.pole)}</td>
                <td>{side.conductors.map(view.labelOf).join(', ')}</td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </section>
  );
}

function Spine({ rows, view }: { readonly rows: readonly PanelRow[]; readonly view: PhotoView }) {
  const rails: readonly Role[] = [...new Set(rows.map((r) => r.pole))];
  const middle = (rails.length + 1) * RAIL;
  const width = 2 * (ARM + TAG) + middle;
  const height = rows.length * ROW + 30;
  const railX = (role: Role): number => ARM + TAG + (rails.indexOf(role) + 1) * RAIL;
  return (
    <svg className="spine" viewBox={`0 0 ${width} ${height}`} style={{ maxWidth: width * 1.4 }} aria-hidden="true">
      {rails.map((role) => (
        <g key={role}>
          <line className="rail" x1={railX(role)} x2={railX(role)} y1={26} y2={height} />
          <text className="rail-name" x={railX(role)} y={16}>
            {railLetter(role)}
          </text>
        </g>
      ))}
      {rows.map((r, i) => {
        const y = 30 + i * ROW + ROW / 2;
        const x = railX(r.pole);
        return (
          <g key={r.row}>
            <line className="arm" x1={TAG + ARM / 2} x2={width - TAG - ARM / 2} y1={y} y2={y} />
            <rect className="bead" x={x - 7} y={y - 7} width="14" height="14" />
            <Side x={TAG} y={y} side={r.left} view={view} end="start" />
            <Side x={width - TAG} y={y} side={r.right} view={view} end="end" />
          </g>
        );
      })}
    </svg>
  );
}

/** A, B, C, 1, 2, or H for the high leg: short enough to stand on a rail. */
const railLetter = (role: Role): string => (role === 'high leg' ? t('screen.panel.high-leg') : role.slice(-1));

/** The name a stub is hatched by: the user's word where there is one. */
const shownName = (c: NamedConductor): ColorName =>
  isColorName(c.userWord?.name) ? c.userWord.name : c.insulation.best;

interface SideProps {
  readonly x: number;
  readonly y: number;
  readonly side: PanelRow['left'];
  readonly view: PhotoView;
  readonly end: 'start' | 'end';
}

function Side({ x, y, side, view, end }: SideProps) {
  const inward = end === 'start' ? 1 : -1;
  const first = view.conductors.find((c) => c.id === side.conductors[0]);
  const from = x + inward * 4;
  return (
    <>
      <text className="space-number" x={x - inward * 6} y={y} textAnchor={end === 'start' ? 'end' : 'start'}>
        {side.space}
      </text>
      {first && (
        <>
          <rect
            className="stub"
            x={Math.min(from, from + inward * 62)}
            y={y - 11}
            width="62"
            height="22"
            fill={first.covering === 'bare' ? 'none' : `url(#hatch-${shownName(first)})`}
          />
          <rect className="stub-tag" x={from + inward * 31 - 12} y={y - 10} width="24" height="20" />
          <text className="stub-name" x={from + inward * 31} y={y}>
            {side.conductors.map(view.labelOf).join(' ')}
          </text>
        </>
      )}
    </>
  );
}
