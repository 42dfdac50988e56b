import { COLOR_NAMES } from '../../flow';
import { PAINTS } from './hatch';

/** The hatch patterns all swatches point to; stands once in the page. */
export function HatchDefs() {
  return (
    <svg width="0" height="0" className="unseen" aria-hidden="true" focusable="false">
      <defs>
        {COLOR_NAMES.map((name) => (
          <pattern key={name} id={`hatch-${name}`} width="8" height="8" patternUnits="userSpaceOnUse">
            <rect width="8" height="8" fill={PAINTS[name].fill} />
            <path
              d={PAINTS[name].hatch}
              stroke={PAINTS[name].ink}
              strokeWidth={name === 'green-yellow' ? 3.2 : 1}
              fill="none"
            />
          </pattern>
        ))}
      </defs>
    </svg>
  );
}
