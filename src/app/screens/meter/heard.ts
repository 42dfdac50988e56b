import type { Entry } from './entry';

const OVER = /^(o\.? ?l\.?|over(load| limit| the limit)?|open( line)?|fuera de escala|abierto)$/;
const MINUS = /^(minus|negative|menos|negativo) /;
const POINT = / ?(point|punto|coma) ?/;
const UNIT = / ?(volts?|v|voltios?|ohms?|ohmios?|ω)\.?$/;

/** What a spoken reading stands for: a number in digits, OL or an order of phases; null when it is none of these. */
export function heard(spoken: string): Entry | null {
  const text = spoken
    .toLowerCase()
    .trim()
    .replace(/[.!?]$/, '');
  if (OVER.test(text)) return { kind: 'answer', value: 'OL' };
  const order = text.replaceAll(/[\s,.]/g, '').toUpperCase();
  if (order === 'ABC' || order === 'CBA') return { kind: 'answer', value: order };
  const digits = text.replace(UNIT, '').replace(MINUS, '-').replace(POINT, '.').replace(',', '.');
  return /^-?\d{1,6}(\.\d{1,3})?$/.test(digits) ? { kind: 'digits', text: digits } : null;
}
