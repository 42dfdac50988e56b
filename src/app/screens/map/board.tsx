import { useMemo } from 'react';
import { layoutBoard, ROW } from '../../geometry/board';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { roleWord } from '../../text/names';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';
import { BoardDetail } from './board-detail';
import { BoardFan } from './board-fan';
import { BoardPosts, POLE_X, POST_LEFT } from './board-posts';
import { BoardRow } from './board-row';
import { alarmsOf, frameOf, postKey, proposals } from './proposals';

/** Width of the drawing, drawing units. */
const WIDTH = 380;
const STRAND_LEFT = 128;

/**
 * The phase map as a drawing: each conductor's insulation on the left, a strand to the role it most probably has, and
 * the pole space it lands on. Touching a conductor shows all that it may be. The table below says the same in words.
 */
export function PhaseBoard({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const { map, conductors } = view;
  const { selected } = bench;
  const drawn = useMemo(() => {
    const assignments = new Map(map.assignments.map((a) => [a.conductor, a]));
    const rows = conductors.map((conductor) => ({
      conductor,
      space: assignments.get(conductor.id)?.space,
      ways: proposals(assignments.get(conductor.id)),
      alarms: alarmsOf(map.findings, conductor.id),
    }));
    const strands = rows.flatMap(({ conductor, ways: [way] }) =>
      way ? [{ conductor: conductor.id, post: postKey(way), way }] : [],
    );
    return {
      rows,
      strands,
      board: layoutBoard(
        conductors.map((c) => c.id),
        strands,
        frameOf,
      ),
    };
  }, [map, conductors]);
  const { rows, strands, board } = drawn;
  if (rows.length === 0) return null;
  const postY = new Map(board.posts.map((p) => [p.key, p.y]));
  const open = rows.find((r) => r.conductor.id === selected);
  return (
    <section className="stack" aria-labelledby="board">
      <h2 id="board">{t('screen.board.title')}</h2>
      <p className="soft">{t('screen.board.how')}</p>
      <div className="board" style={{ aspectRatio: `${WIDTH} / ${board.height}` }}>
        <svg viewBox={`0 0 ${WIDTH} ${board.height}`} aria-hidden="true">
          {strands.map(({ conductor, post, way }) => {
            const from = board.rowY.get(conductor) ?? 0;
            const to = postY.get(post) ?? 0;
            const middle = (STRAND_LEFT + POST_LEFT) / 2;
            const d = `M${STRAND_LEFT} ${from}C${middle} ${from} ${middle} ${to} ${POST_LEFT} ${to}`;
            const dim = open !== undefined;
            const standing = view.standingOf(conductor);
            return (
              <g key={`${conductor} ${post}`} className="strand" data-dim={dim}>
                <path d={d} data-standing={standing} strokeWidth={2 + 5 * way.probability} />
                {standing === 'disputed' && <path className="strand-gap" d={d} strokeWidth="2" />}
              </g>
            );
          })}
          {rows.map((r) => (
            <BoardRow key={r.conductor.id} {...r} y={board.rowY.get(r.conductor.id) ?? 0} view={view} poleX={POLE_X} />
          ))}
          <BoardPosts
            board={board}
            dim={open !== undefined}
            poles={rows.flatMap(({ conductor, space, ways }) =>
              space !== undefined && ways[0]
                ? [{ id: conductor.id, y: board.rowY.get(conductor.id) ?? 0, post: postKey(ways[0]) }]
                : [],
            )}
          />
          {open && (
            <BoardFan
              ways={open.ways}
              from={STRAND_LEFT}
              y={board.rowY.get(open.conductor.id) ?? 0}
              height={board.height}
            />
          )}
        </svg>
        {rows.map(({ conductor: { id }, ways, alarms }, i) => (
          <button
            key={id}
            type="button"
            className="board-key"
            style={{ top: `${(100 * i * ROW) / board.height}%`, height: `${(100 * ROW) / board.height}%` }}
            aria-pressed={id === selected}
            aria-label={t(alarms.length > 0 ? 'screen.board.pick-alarm' : 'screen.board.pick', {
              label: view.labelOf(id),
              role: roleWord(ways[0]?.role ?? 'unassigned'),
              share: percent(ways[0]?.probability ?? 0),
              count: alarms.length,
            })}
            onClick={() => bench.select(id === selected ? null : id)}
          />
        ))}
      </div>
      {open && <BoardDetail {...open} bench={bench} view={view} />}
    </section>
  );
}
