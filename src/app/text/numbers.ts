import { speech } from './speech';

/**
 * A probability as a whole percentage, never rounded up to 100 nor down to 0: color is never certain.
 * `p` from 0 to 1.
 */
export function percent(p: number): string {
  if (p > 0.99) return '> 99 %';
  if (p < 0.01) return '< 1 %';
  return `${Math.round(p * 100)} %`;
}

/** A number typed or kept with a point, as the language writes it. */
export const withSign = (digits: string): string => digits.replace('.', speech().decimal);

/** Volts or ohms with as many digits as a hand meter shows. */
export const measured = (value: number): string =>
  withSign(Math.abs(value) >= 100 ? String(Math.round(value)) : String(Math.round(value * 10) / 10));

/** Date and time of day, in the habit of the language. */
export const dateTime = (iso: string): string => {
  const date = new Date(iso);
  return Number.isNaN(date.getTime())
    ? iso
    : date.toLocaleString(speech().tag, { dateStyle: 'medium', timeStyle: 'short' });
};
