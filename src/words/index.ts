export type { ScreenCode } from './en/screen';
export { type DecimalSign, LANGUAGE_NAMES, LOCALES, type Locale, say, sayAll } from './say';
