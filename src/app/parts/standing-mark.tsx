import type { Standing } from '../../flow';
import { t } from '../text/t';
import { Icon, type IconName } from './icon';

const MARKS = {
  'by color': { icon: 'eye', code: 'screen.standing.by-color' },
  metered: { icon: 'needle', code: 'screen.standing.metered' },
  disputed: { icon: 'clash', code: 'screen.standing.disputed' },
} as const satisfies Record<Standing, { readonly icon: IconName; readonly code: string }>;

/** How far a role is proved: word, drawing and line (dashed, solid, double) say the same. */
export function StandingMark({ standing }: { readonly standing: Standing }) {
  const mark = MARKS[standing];
  return (
    <span className="standing" data-standing={standing}>
      <Icon name={mark.icon} />
      {t(mark.code)}
    </span>
  );
}
