import type { Message } from '../../flow';
import { say } from './say';

/**
 * A message of the cores with conductor ids turned into the numbers the user sees. The cores know conductors by id
 * only; a value that is not the id of a conductor of this photo stays as it is.
 */
export function sayOf(message: Message, labelOf: (conductor: string) => string): string {
  if (!message.values) return say(message);
  const values = Object.fromEntries(
    Object.entries(message.values).map(([key, value]) => {
      if (typeof value !== 'string') return [key, value];
      const parts = value.split(', ').map((part) => {
        const label = labelOf(part);
        return label === '?' ? part : label;
      });
      return [key, parts.join(', ')];
    }),
  );
  return say({ code: message.code, values });
}
