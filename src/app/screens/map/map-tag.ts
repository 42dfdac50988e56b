import type { PhotoView } from '../../state/use-photo-view';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';
import { alarmsOf } from './proposals';
import { roleMark } from './role-mark';

/** What stands on a conductor in the photo while the map is worked on: number, role in short, share, and ! for findings. */
export function mapTag(view: PhotoView, conductor: string): string {
  const label = view.labelOf(conductor);
  const first = view.roleOf(conductor);
  if (!first) return label;
  const alarmed = alarmsOf(view.map.findings, conductor).length > 0;
  return t(alarmed ? 'screen.mark.tag-alarm' : 'screen.mark.tag', {
    label,
    mark: roleMark(first.role),
    share: percent(first.probability),
  });
}
