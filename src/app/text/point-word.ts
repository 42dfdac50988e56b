import type { TestPoint } from '../../flow';
import { roleWord, systemWord } from './names';
import { t } from './t';

/** Where a lead goes, in words. */
export function pointWord(point: TestPoint, labelOf: (conductor: string) => string): string {
  switch (point.kind) {
    case 'conductor':
      return t('screen.point.conductor', { label: labelOf(point.conductor) });
    case 'ground':
      return t('screen.point.ground');
    case 'neutral bar':
      return t('screen.point.neutral-bar');
    case 'pole':
      return t('screen.point.pole', { role: roleWord(point.role), system: systemWord(point.system) });
  }
}
