import type { Role } from '../../../flow';
import { type ScreenCode, t } from '../../text/t';

const MARKS = {
  'phase A': 'screen.mark.phase-A',
  'phase B': 'screen.mark.phase-B',
  'phase C': 'screen.mark.phase-C',
  'line 1': 'screen.mark.line-1',
  'line 2': 'screen.mark.line-2',
  'high leg': 'screen.mark.high-leg',
  'grounded conductor': 'screen.mark.grounded',
  'equipment grounding conductor': 'screen.mark.grounding',
  'isolated ground': 'screen.mark.isolated-ground',
  'isolated conductor 1': 'screen.mark.isolated-1',
  'isolated conductor 2': 'screen.mark.isolated-2',
  'isolated conductor 3': 'screen.mark.isolated-3',
  'switch leg': 'screen.mark.switch-leg',
  traveler: 'screen.mark.traveler',
  control: 'screen.mark.control',
  positive: 'screen.mark.positive',
  negative: 'screen.mark.negative',
  unassigned: 'screen.mark.unassigned',
} as const satisfies Record<Role, ScreenCode>;

/** A role in one to three characters, for a drawing; its name stands in words wherever it is explained. */
export const roleMark = (role: Role): string => t(MARKS[role]);
