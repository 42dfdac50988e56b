import type { Role } from '../../../flow';
import { isPoleSpace, type PanelMap, panelKindOf, panelMap, panelPole } from '../../../identify';
import { TableHead } from '../../parts/table-head';
import { siteOfPhoto } from '../../state/site';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { colorWord, roleWord, systemWord } from '../../text/names';
import { t } from '../../text/t';
import { LoadFields } from './load-fields';
import { breakerSpans, type PanelRow, panelRows } from './panel-rows';
import { PanelStub } from './panel-stub';
import { roleMark } from './role-mark';

const ROW = 44;
const RAIL = 26;
const ARM = 110;
const TAG = 34;
const TOP = 30;

const COLUMNS = [
  'screen.panel.space',
  'screen.panel.pole',
  'screen.col.number',
  'screen.word.color',
  'screen.panel.seen',
  'screen.panel.verdict',
] as const;

/**
 * The panel's spaces on its bus rails, once a conductor's space is known: a bead shows which rail feeds the row, a
 * stub what lands there, and a sign whether its color stands for that phase.
 */
export function PanelDrawing({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const known = siteOfPhoto(bench.job.site, bench.photo);
  // An imported record may name a space that no board has.
  const { board } = known;
  const spaces = Object.fromEntries(Object.entries(known.spaces).filter(([, n]) => isPoleSpace(n, board)));
  const site = { ...known, spaces };
  const system = view.map.systems.find((s) => panelKindOf(s.system))?.system;
  const kind = system ? panelKindOf(system) : null;
  if (!system || !kind || Object.keys(site.spaces).length === 0) return null;
  const panel = panelMap(kind, system, view.conductors, view.map, site);
  const rows = panelRows(panel);
  if (rows.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="panel">
      <h2 id="panel">{t('screen.panel.title', { system: systemWord(system) })}</h2>
      <p className="soft">{t(board ? `screen.panel.numbering.${board.order}` : 'screen.panel.numbering')}</p>
      <p className="soft">{t('screen.panel.key')}</p>
      <Spine panel={panel} rows={rows} spans={breakerSpans(site)} view={view} />
      <table className="unseen">
        <caption>{t('screen.panel.title', { system: systemWord(system) })}</caption>
        <TableHead columns={COLUMNS} />
        <tbody>
          {panel.spaces.flatMap((s) =>
            s.conductors.map((c) => (
              <tr key={c.id}>
                <td>{s.space}</td>
                <td>{roleWord(s.expected)}</td>
                <td>{view.labelOf(c.id)}</td>
                <td>{colorWord(c.color)}</td>
                <td>{c.byColor ? roleWord(c.byColor) : t('screen.panel.undecided')}</td>
                <td>{t(VERDICTS[c.verdict])}</td>
              </tr>
            )),
          )}
        </tbody>
      </table>
      <LoadFields site={bench.job.site} kind={kind} spaces={panel.spaces.filter((s) => s.conductors.length > 0)} />
    </section>
  );
}

const VERDICTS = {
  'as expected': 'screen.panel.as-expected',
  differs: 'screen.panel.differs',
  undecided: 'screen.panel.undecided',
} as const;

interface SpineProps {
  readonly panel: PanelMap;
  readonly rows: readonly PanelRow[];
  readonly spans: ReturnType<typeof breakerSpans>;
  readonly view: PhotoView;
}

function Spine({ panel, rows, spans, view }: SpineProps) {
  const fed = new Set(panel.spaces.map((s) => s.expected));
  const rails: readonly Role[] = [...new Set([1, 3, 5].map((n) => panelPole(n, panel.kind)))].filter((r) => fed.has(r));
  const middle = (rails.length + 1) * RAIL;
  const width = 2 * (ARM + TAG) + middle;
  const height = rows.length * ROW + TOP;
  const railX = (role: Role): number => ARM + TAG + (rails.indexOf(role) + 1) * RAIL;
  const rowY = (row: number): number => TOP + (row - 0.5) * ROW;
  const rowOf = new Map(panel.spaces.map((s) => [s.space, s.row]));
  return (
    <svg className="spine" viewBox={`0 0 ${width} ${height}`} style={{ maxWidth: width * 1.4 }} aria-hidden="true">
      {rails.map((role) => (
        <g key={role}>
          <line className="rail" x1={railX(role)} x2={railX(role)} y1={26} y2={height} />
          <text className="rail-name" x={railX(role)} y={16}>
            {roleMark(role)}
          </text>
        </g>
      ))}
      {rows.map((r) => {
        const y = rowY(r.row);
        const feeds = [...new Set([r.left, r.right].flatMap((s) => (s ? [railX(s.expected)] : [])))];
        return (
          <g key={r.row}>
            {feeds.length > 1 ? (
              <>
                <line className="arm" x1={TAG + ARM / 2} x2={feeds[0]} y1={y} y2={y} />
                <line className="arm" x1={feeds[1]} x2={width - TAG - ARM / 2} y1={y} y2={y} />
              </>
            ) : (
              <line className="arm" x1={TAG + ARM / 2} x2={width - TAG - ARM / 2} y1={y} y2={y} />
            )}
            {feeds.map((x) => (
              <rect key={x} className="bead" x={x - 7} y={y - 7} width="14" height="14" />
            ))}
            {r.left && <PanelStub x={TAG} y={y} space={r.left} view={view} end="start" />}
            {r.right && <PanelStub x={width - TAG} y={y} space={r.right} view={view} end="end" />}
          </g>
        );
      })}
      {spans.map(({ side, spaces }) => {
        const out = side === 'left' ? -1 : 1;
        const x = side === 'left' ? TAG : width - TAG;
        const ends = spaces.map((n) => rowY(rowOf.get(n) ?? 0));
        const [from, to] = [Math.min(...ends), Math.max(...ends)];
        return (
          <path
            key={spaces.join(' ')}
            className="span"
            d={`M${x + out * 26} ${from - 12}h${out * 6}V${to + 12}h${-out * 6}`}
          />
        );
      })}
    </svg>
  );
}
