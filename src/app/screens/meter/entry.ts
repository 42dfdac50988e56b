import type { MeterFunction, Reading, ReadingWord } from '../../../flow';

/** What has been typed on the pad so far: the digits as text, or a whole answer. */
export type Entry =
  | { readonly kind: 'digits'; readonly text: string }
  | { readonly kind: 'answer'; readonly value: ReadingWord };

export const EMPTY_ENTRY: Entry = { kind: 'digits', text: '' };

/** Hand meters show at most this many digits. */
const MOST_DIGITS = 6;

export type PadKey = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | '.' | '-' | 'back';

/** The entry after a key of the pad. */
export function press(entry: Entry, key: PadKey): Entry {
  const text = entry.kind === 'digits' ? entry.text : '';
  if (key === 'back') return { kind: 'digits', text: text.slice(0, -1) };
  if (key === '-') return { kind: 'digits', text: text.startsWith('-') ? text.slice(1) : `-${text}` };
  if (key === '.' && text.includes('.')) return { kind: 'digits', text };
  if (text.replace(/\D/g, '').length >= MOST_DIGITS && key !== '.') return { kind: 'digits', text };
  return { kind: 'digits', text: text + key };
}

/** Answers that a function has instead of a number; none where it shows numbers. */
export const ANSWERS: Readonly<Partial<Record<MeterFunction, readonly ReadingWord[]>>> = {
  'phase rotation': ['ABC', 'CBA'],
  tone: ['tone', 'no tone'],
};

/** The value an entry stands for, or null while it is none (no digit yet, or no answer of this function). */
export function entered(entry: Entry, meterFunction: MeterFunction): Reading['value'] | null {
  const answers = ANSWERS[meterFunction];
  if (entry.kind === 'answer') return (answers ?? ['OL']).includes(entry.value) ? entry.value : null;
  if (answers || !/\d/.test(entry.text)) return null;
  return Number(entry.text);
}
