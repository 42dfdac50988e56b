export { type Locale, say, sayAll } from './say';
