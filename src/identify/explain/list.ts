import { type ColorName, type Message, message } from '../../flow';

/**
 * A message about one to three colors: codes end in -1, -2, -3 and have the blanks a, b, c, so that every language
 * joins a list in its own way. More than three colors: the first three.
 */
export function colorListMessage(code: string, colors: readonly ColorName[], values: Message['values'] = {}): Message {
  const shown = colors.slice(0, 3);
  const blanks = Object.fromEntries(shown.map((color, i) => ['abc'[i]!, color]));
  return message(`${code}-${shown.length}`, { ...values, ...blanks });
}

/** The catalogue key of a system's name, used as a value. */
export const systemKey = (system: string): string => `identify.system.${system}`;
