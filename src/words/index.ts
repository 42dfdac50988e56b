export type { ScreenCode } from './en/screen';
export { type Locale, say, sayAll } from './say';
