import type { Role } from '../flow';
import { isLine } from './claim';

/** What a photo can tell of a conductor even when it is wrong about the system. */
export type Kind = 'line' | 'neutral' | 'grounding' | 'other';

export function kindOf(role: Role): Kind {
  if (isLine(role)) return 'line';
  if (role === 'grounded conductor') return 'neutral';
  return role === 'equipment grounding conductor' ? 'grounding' : 'other';
}
