import type { Message } from '../../flow';
import type { ScreenCode } from '../../words';
import { say } from './say';

export type { ScreenCode };

/** A sentence of the screen's own part of the catalogue. A code that does not exist is a type error. */
export const t = (code: ScreenCode, values?: Message['values']): string => say(values ? { code, values } : { code });
