import type { Reading } from '../flow';
import { DROP_SHARE } from './expected-voltage';
import { type Meter, meterError } from './meter';

/**
 * Supply level as a fraction of nominal, shared by all pairs of one system. The grid covers the widest ranges
 * (ANSI range B 0.867 to 1.058, IEC 0.9 to 1.1) in steps of the accuracy of a reading; levels near nominal are
 * likelier (standard deviation 4 %, an assumption).
 */
export const LEVELS: readonly number[] = [0.86, 0.88, 0.9, 0.92, 0.94, 0.96, 0.98, 1, 1.02, 1.04, 1.06, 1.08, 1.1];
const raw = LEVELS.map((s) => Math.exp(-0.5 * ((s - 1) / 0.04) ** 2));
const total = raw.reduce((a, b) => a + b, 0);
export const LEVEL_LOG_PRIOR: readonly number[] = raw.map((w) => Math.log(w / total));

/** How a reading can fail to show what is there. Assumed rates: 2 in 100 mistyped or mis-probed, 1 in 100 wrong function. */
const MISTAKE = 0.02;
const WRONG_FUNCTION = 0.01;
/** Span over which a mistake may fall, volts. */
const MISTAKE_SPAN = 700;

/** What the leads stand on, reduced to what the meter would see. */
export type Sight =
  /** Volts between two held points; `loose`: ground of a floating system is one of them. */
  | {
      readonly kind: 'volts';
      readonly nominal: number;
      readonly base: number;
      readonly loose: boolean;
      readonly side: number;
      /** Standard deviation of where the points stand, volts. */
      readonly blur: number;
    }
  /** One end is held by nothing; up to `reach` volts may couple into it. */
  | { readonly kind: 'open'; readonly reach: number }
  /** Two systems at an unknown angle. */
  | { readonly kind: 'angle'; readonly low: number; readonly high: number }
  | { readonly kind: 'ohms'; readonly closed: boolean }
  | { readonly kind: 'rotation'; readonly order: 'ABC' | 'CBA' }
  /** Nothing can be said. */
  | { readonly kind: 'blind' };

export const sightKey = (sight: Sight): string =>
  sight.kind === 'volts'
    ? `v${sight.nominal.toFixed(1)}/${sight.base.toFixed(0)}/${sight.loose ? sight.side.toFixed(0) : ''}/${sight.blur.toFixed(1)}`
    : sight.kind === 'open'
      ? `o${sight.reach.toFixed(0)}`
      : sight.kind === 'angle'
        ? `a${sight.low.toFixed(0)}/${sight.high.toFixed(0)}`
        : sight.kind === 'ohms'
          ? `r${sight.closed}`
          : sight.kind === 'rotation'
            ? sight.order
            : sight.kind;

const normal = (x: number, mean: number, sd: number): number =>
  Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));

const decay = (x: number, scale: number): number => Math.exp(-Math.abs(x) / scale) / scale;

/** Values that a slip of the finger could have made this one of: a decimal point moved, two digits exchanged. */
export function slips(value: number): number[] {
  const digits = String(Math.round(Math.abs(value)));
  const swapped = [...digits]
    .slice(1)
    .map((_, i) => Number(digits.slice(0, i) + digits[i + 1] + digits[i] + digits.slice(i + 2)));
  return [value / 10, value * 10, ...swapped];
}

/** `meantFor` holds `slips(value)`. */
const mistakeDensity = (meant: number, meantFor: readonly number[]): number => {
  let slip = 0;
  for (const s of meantFor) {
    const sd = 1.5 + 0.02 * Math.abs(s);
    if (Math.abs(meant - s) < 5 * sd) slip += normal(meant, s, sd);
  }
  return 0.5 / MISTAKE_SPAN + (0.5 * slip) / 4;
};

export type Cause = 'as it is' | 'mistake' | 'wrong function';

/** Densities of a voltage reading by cause; `meant` volts are really there. */
function voltCauses(
  value: number,
  meant: number,
  sight: Extract<Sight, { kind: 'volts' }>,
  meter: Meter,
  meantFor: readonly number[],
): [number, number, number] {
  const sd = Math.hypot(
    meterError(meter, meant) / 2,
    0.012 * Math.abs(meant),
    sight.loose ? 0.08 * sight.side : 0,
    sight.blur,
  );
  const zero = Math.abs(sight.nominal) < 0.02 * sight.base && !sight.loose && sight.blur === 0;
  // Load current lifts a zero by a part of the line voltage; a third of the allowed drop is taken as typical.
  const right = zero ? decay(value, (DROP_SHARE / 4) * sight.base + 0.2) : normal(value, meant, sd);
  return [
    (1 - MISTAKE - WRONG_FUNCTION) * right,
    MISTAKE * mistakeDensity(meant, meantFor),
    WRONG_FUNCTION * decay(value, 0.5),
  ];
}

const CAUSES: readonly Cause[] = ['as it is', 'mistake', 'wrong function'];

function ohmCauses(reading: Reading, closed: boolean): [number, number, number] {
  const { value } = reading;
  const isOpen = value === 'OL' || (typeof value === 'number' && value > 1000);
  const low = typeof value === 'number' && value <= 2;
  return closed ? [low ? 0.97 : 0.005, isOpen ? 0.02 : 0.005, 0] : [isOpen ? 0.95 : 0.02, low ? 0.02 : 0.005, 0];
}

/** Densities by cause, for one supply level; in volts to the minus one, or plain probabilities. */
function causes(
  reading: Reading,
  sight: Sight,
  level: number,
  meter: Meter,
  meantFor: readonly number[],
): [number, number, number] {
  const { value } = reading;
  if (sight.kind === 'blind') return [1 / MISTAKE_SPAN, 0, 0];
  if (sight.kind === 'ohms') return ohmCauses(reading, sight.closed);
  if (sight.kind === 'rotation') return value === sight.order ? [0.98, 0, 0] : [0, 0.02, 0];
  if (typeof value !== 'number') return [1 / MISTAKE_SPAN, 0, 0];
  if (sight.kind === 'volts') return voltCauses(value, sight.nominal * level, sight, meter, meantFor);
  if (sight.kind === 'angle') {
    const width = Math.max(sight.high - sight.low, 20);
    const in_ = value >= sight.low * 0.88 && value <= sight.high * 1.1;
    return [in_ ? 0.97 / width : 0, MISTAKE / MISTAKE_SPAN, WRONG_FUNCTION * decay(value, 0.5)];
  }
  if (reading.function === 'AC volts, low impedance') return [0.97 * decay(value, 1), MISTAKE / MISTAKE_SPAN, 0];
  // Half of the floating conductors show little, half a ghost of up to 85 % of what is near (safety.json, read).
  const ghost = value >= 0 && value <= 0.85 * sight.reach ? 0.5 / Math.max(0.85 * sight.reach, 10) : 0;
  return [0.97 * (0.5 * decay(value, 4) + ghost), MISTAKE / MISTAKE_SPAN, 0];
}

const FLOOR = 1e-12;

/** No sight gives a reading more than this. */
export function bestLogLikelihood(reading: Reading, meter: Meter): number {
  if (reading.function === 'continuity' || reading.function === 'phase rotation') return 0;
  if (typeof reading.value !== 'number') return Math.log(1 / MISTAKE_SPAN);
  const value = Math.abs(reading.value);
  // The narrowest bell a voltage of about this size can stand under; a little less than that of the value itself.
  const narrow = Math.hypot(meterError(meter, 0.9 * value) / 2, 0.0108 * value);
  return Math.log(Math.max(1 / (narrow * Math.sqrt(2 * Math.PI)), decay(value, 0.5), decay(value, 1.2)));
}

interface Rows {
  readonly meter: Meter;
  readonly meantFor: readonly number[];
  readonly bySight: (Float64Array | undefined)[];
}

/** Rows already computed for a reading: it is weighed again after every new one, under many supplies. */
const ROWS = new WeakMap<Reading, Rows>();

function rowsOf(reading: Reading, meter: Meter): Rows {
  const known = ROWS.get(reading);
  if (known?.meter === meter) return known;
  const made = { meter, meantFor: typeof reading.value === 'number' ? slips(reading.value) : [], bySight: [] };
  ROWS.set(reading, made);
  return made;
}

/** Log likelihood of a reading for every supply level, mistakes included. `id` numbers the sight. */
export function logLikelihood(reading: Reading, sight: Sight, id: number, meter: Meter): Float64Array {
  const rows = rowsOf(reading, meter);
  const known = rows.bySight[id];
  if (known) return known;
  const made = new Float64Array(LEVELS.length);
  for (let l = 0; l < made.length; l++) {
    const [a, b, c] = causes(reading, sight, LEVELS[l] as number, meter, rows.meantFor);
    made[l] = Math.log(a + b + c + FLOOR);
  }
  rows.bySight[id] = made;
  return made;
}

/** The likeliest reason for a value, given what is really there. */
export function causeOf(reading: Reading, sight: Sight, level: number, meter: Meter): Cause {
  const meantFor = typeof reading.value === 'number' ? slips(reading.value) : [];
  const all = causes(reading, sight, level, meter, meantFor);
  const best = all.indexOf(Math.max(...all));
  return CAUSES[best] ?? 'mistake';
}
