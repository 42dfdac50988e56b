import type { Message } from '../../flow';
import { say as sayIn } from '../../words';
import { speech } from './speech';

/** A message of the cores in the language of the screens. */
export function say(message: Message): string {
  const { locale, decimal } = speech();
  return sayIn(message, locale, decimal);
}
