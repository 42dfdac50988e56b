import type { DecimalSign, Locale } from '../../words';

/** How the screens speak now: the language, the tag that dates follow (such as "es-MX"), the decimal sign. */
export interface Speech {
  readonly locale: Locale;
  readonly tag: string;
  readonly decimal: DecimalSign;
}

let now: Speech = { locale: 'en', tag: 'en', decimal: '.' };
const listeners = new Set<() => void>();

export const speech = (): Speech => now;

/** Speaks another language from now on; every screen is drawn again. */
export function speak(next: Speech): void {
  now = next;
  for (const listener of listeners) listener();
}

/** Calls back after each change; returns how to stop that. */
export function onSpeech(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
