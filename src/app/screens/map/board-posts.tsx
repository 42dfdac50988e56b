import type { Role } from '../../../flow';
import { type Board, POST } from '../../geometry/board';

import { frameOf } from './proposals';
import { roleMark } from './role-mark';
import { shortSystem } from './short-system';

export const POST_LEFT = 246;
const POST_RIGHT = 316;
export const POLE_X = 348;

interface BoardPostsProps {
  readonly board: Board;
  /** Something else is looked at. */
  readonly dim: boolean;
  /** Conductors whose pole space is known: a line leads from their role to it. */
  readonly poles: readonly { readonly id: string; readonly y: number; readonly post: string }[];
}

/** The roles, each as a post in the frame of its system. */
export function BoardPosts({ board, dim, poles }: BoardPostsProps) {
  const y = new Map(board.posts.map((p) => [p.key, p.y]));
  return (
    <g className="posts" data-dim={dim}>
      {poles.map((p) => (
        <path
          key={p.id}
          className="board-wire"
          d={`M${POST_RIGHT} ${y.get(p.post) ?? 0}C${POST_RIGHT + 20} ${y.get(p.post) ?? 0} ${POLE_X - 20} ${p.y} ${POLE_X} ${p.y}`}
        />
      ))}
      {board.captions.map((c) => (
        <text key={c.frame} className="board-caption" x={POST_LEFT} y={c.y}>
          {shortSystem(c.frame)}
        </text>
      ))}
      {board.posts.map((p) => {
        const top = p.y - POST / 2 + 4;
        return (
          <g key={p.key} className="post">
            <path
              d={`M${POST_LEFT} ${top}h${POST_RIGHT - POST_LEFT - 8}l8 8v${POST - 24}l-8 8h-${POST_RIGHT - POST_LEFT - 8}z`}
            />
            <text className="post-mark" x={POST_LEFT + 33} y={p.y}>
              {roleMark(p.key.slice(frameOf(p.key).length + 1) as Role)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
