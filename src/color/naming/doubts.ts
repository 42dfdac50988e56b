import { type ColorCandidate, type Message, message } from '../../flow';
import { twoLamps } from '../light/two-lamps';
import type { LightPosterior } from '../light/types';
import type { Body } from '../ribbon/body';

/** Limits at which a circumstance is worth telling. Assumed; see the README. */
const LIMIT = { errorDeg: 3, dark: 0.006, usable: 0.5, width: 5, scatter: 0.05, gloss: 2.6 };

/** Why a color is unsure, worst first. Empty only when nothing speaks against it and one name remains. */
export function doubtsOf(
  body: Body,
  light: LightPosterior,
  candidates: readonly ColorCandidate[],
  setSize: number,
): Message[] {
  const found: { weight: number; message: Message }[] = [];
  const add = (weight: number, code: string, values?: Message['values']) =>
    found.push({ weight, message: message(`color.doubt.${code}`, values) });
  if (body.usable < LIMIT.usable) add(5 - body.usable, 'clipped');
  if (Math.max(...body.rgb) < LIMIT.dark) add(4, 'dark');
  if (body.widthPx < LIMIT.width) add(3.5, 'thin', { width: Math.round(body.widthPx) });
  else if (body.blurPx * 3 > body.widthPx) add(3.4, 'blur');
  if (setSize > 1) {
    const [first, second] = candidates;
    if (first && second) add(3, 'close', { first: `color.name.${first.name}`, second: `color.name.${second.name}` });
    if (light.errorDeg > LIMIT.errorDeg) add(2.5, 'light', { degrees: Math.round(light.errorDeg) });
    if (twoLamps(light)) add(2.2, light.flash ? 'mixed-light-flash' : 'mixed-light');
    if (Math.sqrt(body.scatter[0] + body.scatter[2]) > LIMIT.scatter) add(2, 'uneven');
    if (body.gloss > LIMIT.gloss) add(1.5, 'gloss');
  }
  return found.sort((a, b) => b.weight - a.weight).map((d) => d.message);
}
