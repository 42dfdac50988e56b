import type { SystemId } from '../../../flow';
import { systemWord } from '../../text/names';

/** Words of a system's name that fit beside a drawing; the first two say the voltages in every language. */
const WORDS = 2;

export const shortSystem = (system: SystemId): string =>
  systemWord(system).split(' ').slice(0, WORDS).join(' ').replace(/,$/, '');
