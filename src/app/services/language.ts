import { type DecimalSign, LOCALES, type Locale } from '../../words';
import { speak } from '../text/speech';

const KEY = 'hueproof.language';

const isLocale = (value: string | null | undefined): value is Locale =>
  (LOCALES as readonly (string | null | undefined)[]).includes(value);

const languageOf = (tag: string): string => tag.toLowerCase().split('-')[0] ?? '';

/** The language chosen on this device; else the first of `wanted` (BCP 47 tags) that exists here; else English. */
export function readLanguage(wanted: readonly string[] = navigator.languages): Locale {
  try {
    const kept = localStorage.getItem(KEY);
    if (isLocale(kept)) return kept;
  } catch {
    // Storage is switched off; the browser's own languages decide.
  }
  return wanted.map(languageOf).find(isLocale) ?? 'en';
}

/** The decimal sign of a place, by the browser's own data (CLDR): a point in Mexico, a comma in Spain. */
export const decimalSign = (tag: string): DecimalSign =>
  new Intl.NumberFormat(tag).formatToParts(1.5).find((part) => part.type === 'decimal')?.value === ',' ? ',' : '.';

/** Speaks a language on every screen, in the habits of the place the browser names for it. */
export function showLanguage(locale: Locale, wanted: readonly string[] = navigator.languages): void {
  const tag = wanted.find((t) => languageOf(t) === locale) ?? locale;
  document.documentElement.lang = tag;
  speak({ locale, tag, decimal: decimalSign(tag) });
}

/** Remembers a chosen language where the browser lets anything be remembered. */
export function keepLanguage(locale: Locale): void {
  try {
    localStorage.setItem(KEY, locale);
  } catch {
    // Storage is switched off; the language then lasts as long as the page.
  }
}
