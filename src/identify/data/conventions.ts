import type { Convention } from '../convention';
import { OTHER_CONVENTIONS } from './conventions-other';
import { US_CONVENTIONS } from './conventions-us';

/** Every color convention known here. Data: a new line adds no branch anywhere. */
export const CONVENTIONS: readonly Convention[] = [...US_CONVENTIONS, ...OTHER_CONVENTIONS];
