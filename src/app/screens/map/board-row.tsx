import { type Finding, isColorName, type NamedConductor } from '../../../flow';
import { PAINTS } from '../../parts/hatch';
import type { PhotoView } from '../../state/use-photo-view';
import { percent } from '../../text/numbers';
import type { Proposal } from './proposals';
import { roleMark } from './role-mark';

interface BoardRowProps {
  readonly conductor: NamedConductor;
  readonly ways: readonly Proposal[];
  readonly alarms: readonly Finding[];
  readonly space: number | undefined;
  readonly y: number;
  readonly view: PhotoView;
  readonly poleX: number;
}

/** One conductor: its number, a length of its insulation with stripe and tape, a mark for findings, its pole space. */
export function BoardRow({ conductor, ways, alarms, space, y, view, poleX }: BoardRowProps) {
  const { insulation, userWord, tape, covering } = conductor;
  const name = isColorName(userWord?.name) ? userWord.name : insulation.best;
  const open = userWord ? userWord.name === 'not decided' : insulation.set.length > 1;
  const stripe = userWord?.stripe === undefined ? conductor.stripe?.name : (userWord.stripe ?? undefined);
  const first = ways[0];
  return (
    <g>
      <rect className="board-tag" x="2" y={y - 13} width="34" height="26" />
      <text className="board-number" x="19" y={y}>
        {view.labelOf(conductor.id)}
      </text>
      <rect
        className="board-rod"
        data-bare={covering === 'bare'}
        x="40"
        y={y - 12}
        width="62"
        height="24"
        fill={covering === 'bare' ? 'none' : `url(#hatch-${name})`}
      />
      {stripe && covering !== 'bare' && (
        <rect x="40" y={y - 4} width="62" height="8" fill={PAINTS[stripe].fill} stroke={PAINTS[name].ink} />
      )}
      {tape[0] && (
        <rect className="board-tape" x="84" y={y - 14} width="12" height="28" fill={`url(#hatch-${tape[0].name})`} />
      )}
      {open && covering !== 'bare' && (
        <>
          <rect className="board-tag" x="60" y={y - 10} width="20" height="20" />
          <text className="board-number" x="70" y={y}>
            ?
          </text>
        </>
      )}
      {alarms.length > 0 && (
        <g className="board-alarm">
          <path d={`M115 ${y - 13}l12 22h-24z`} />
          <path d={`M115 ${y - 5}v7m0 3.5v.5`} />
        </g>
      )}
      {first && (
        <text className="board-share" x="134" y={y - 12}>
          {roleMark(first.role)} {percent(first.probability)}
        </text>
      )}
      {space !== undefined && (
        <>
          <rect className="board-pole" x={poleX} y={y - 13} width="30" height="26" />
          <text className="board-number" x={poleX + 15} y={y}>
            {space}
          </text>
        </>
      )}
    </g>
  );
}
