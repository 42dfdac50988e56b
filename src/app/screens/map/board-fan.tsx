import { percent } from '../../text/numbers';
import type { Proposal } from './proposals';
import { roleMark } from './role-mark';
import { shortSystem } from './short-system';

const LEFT = 196;
const WIDTH = 180;
const FLAG = 32;

interface BoardFanProps {
  readonly ways: readonly Proposal[];
  /** Where the strands begin. */
  readonly from: number;
  readonly y: number;
  readonly height: number;
}

/** Everything a touched conductor may be, fanned out beside it: a flag a role, as thick a strand as it is probable. */
export function BoardFan({ ways, from, y, height }: BoardFanProps) {
  const whole = ways.length * FLAG;
  const top = Math.max(2, Math.min(height - whole - 2, y - whole / 2));
  return (
    <g className="fan">
      {ways.map((w, i) => {
        const middle = top + (i + 0.5) * FLAG;
        return (
          <g key={`${w.system} ${w.role}`}>
            <path
              d={`M${from} ${y}C${(from + LEFT) / 2} ${y} ${(from + LEFT) / 2} ${middle} ${LEFT} ${middle}`}
              strokeWidth={1.5 + 6 * w.probability}
            />
            <rect x={LEFT} y={middle - FLAG / 2 + 2} width={WIDTH} height={FLAG - 4} />
            <text x={LEFT + 8} y={middle}>
              {roleMark(w.role)}
            </text>
            <text x={LEFT + 36} y={middle}>
              {percent(w.probability)}
            </text>
            <text className="fan-system" x={LEFT + 84} y={middle}>
              {shortSystem(w.system)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
