import type { Message } from '../flow';
import { EN } from './en';

export type Locale = 'en';

const CATALOGUES: Readonly<Record<Locale, Readonly<Record<string, string>>>> = { en: EN };

/**
 * The sentence of a message in a language. Blanks are written `{name}`; a value that is itself a key of the
 * catalogue (a role, a color name, a system) is translated too. An unknown code is returned as it is, so that
 * nothing is ever silently lost; a test lists every code in use and fails on such a gap.
 */
export function say(message: Message, locale: Locale = 'en'): string {
  const catalogue = CATALOGUES[locale];
  const template = catalogue[message.code];
  if (template === undefined) return message.code;
  return template.replaceAll(/\{(\w+)\}/g, (blank, name: string) => {
    const value = message.values?.[name];
    if (value === undefined) return blank;
    return typeof value === 'string' ? (catalogue[value] ?? value) : String(value);
  });
}

export const sayAll = (messages: readonly Message[], locale: Locale = 'en'): string[] =>
  messages.map((m) => say(m, locale));
