import type { Message } from '../flow';
import { EN } from './en';
import { ES } from './es';

/** Languages that the whole catalogue exists in, as BCP 47 tags. */
export const LOCALES = ['en', 'es'] as const;
export type Locale = (typeof LOCALES)[number];

/** The sign between whole and tenths. Spanish has both: a comma in Spain, a point in Mexico (Unicode CLDR). */
export type DecimalSign = '.' | ',';

/** Each language by its own name. */
export const LANGUAGE_NAMES: Readonly<Record<Locale, string>> = { en: 'English', es: 'Español' };

const CATALOGUES: Readonly<Record<Locale, Readonly<Record<string, string>>>> = { en: EN, es: ES };

const USUAL_SIGN: Readonly<Record<Locale, DecimalSign>> = { en: '.', es: ',' };

const PLURALS: Readonly<Record<Locale, Intl.PluralRules>> = {
  en: new Intl.PluralRules('en'),
  es: new Intl.PluralRules('es'),
};

/** `{count}` is a blank, `{count:photo|photos}` the word that goes with the number in it. */
const BLANK = /\{(\w+)(?::([^{}|]*)\|([^{}|]*))?\}/g;

/** Signs and digits of one number with a fraction; a list such as "1.5, 2" is none. */
const FRACTION = /^-?\d+\.\d+$/;

/**
 * The sentence of a message in a language. Blanks are written `{name}`; a value that is itself a key of the
 * catalogue (a role, a color name, a system) is translated too, and a number gets the decimal sign. An unknown code
 * is returned as it is, so that nothing is ever silently lost; a test lists every code in use and fails on such a gap.
 */
export function say(message: Message, locale: Locale = 'en', decimal: DecimalSign = USUAL_SIGN[locale]): string {
  const catalogue = CATALOGUES[locale];
  const template = catalogue[message.code];
  if (template === undefined) return message.code;
  return template.replaceAll(BLANK, (blank, name: string, one?: string, more?: string) => {
    const value = message.values?.[name];
    if (value === undefined) return blank;
    if (one !== undefined && more !== undefined) return PLURALS[locale].select(Number(value)) === 'one' ? one : more;
    const text = String(value);
    return catalogue[text] ?? (FRACTION.test(text) ? text.replace('.', decimal) : text);
  });
}

export const sayAll = (messages: readonly Message[], locale: Locale = 'en'): string[] =>
  messages.map((m) => say(m, locale));
