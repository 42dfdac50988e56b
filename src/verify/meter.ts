/** What the user says of the instrument. */
export interface Meter {
  /** Measurement category printed at the terminals (IEC 61010-2-030); null: none printed or not known. */
  readonly category: 'II' | 'III' | 'IV' | null;
  /** Voltage of that category, volts. */
  readonly ratedVolts: number;
  /** Accuracy on AC and DC volts: percent of reading plus volts. */
  readonly accuracyPercent: number;
  readonly accuracyVolts: number;
  /** Has a low-impedance range. */
  readonly lowImpedance: boolean;
}

/**
 * Used until the user has said what the meter is. 1.5 % of reading + 0.5 V is the order printed in manuals of
 * hand-held meters: common practice, no source. The category is null on purpose: no plan starts without it.
 */
export const UNKNOWN_METER: Meter = {
  category: null,
  ratedVolts: 0,
  accuracyPercent: 1.5,
  accuracyVolts: 0.5,
  lowImpedance: true,
};

/** Largest honest error of a reading of `volts`, volts. */
export const meterError = (meter: Meter, volts: number): number =>
  (meter.accuracyPercent / 100) * Math.abs(volts) + meter.accuracyVolts;

/**
 * A meter coarser than this could show 208 V and 240 V as one within its own accuracy: they are 15 % apart, `oneSupply`
 * allows 9 % between two readings, and each may be off by half of the rest.
 */
export const COARSEST = { percent: 3, volts: 3 } as const;

export const tooCoarse = (meter: Meter): boolean =>
  meter.accuracyPercent > COARSEST.percent || meter.accuracyVolts > COARSEST.volts;

/**
 * The meter that readings are weighed with: as coarse as stated, never finer than usual, since a plate does not know
 * of worn leads and low batteries. The bands keep the usual error whatever is stated: a wider band would make proof
 * easier with a worse meter.
 */
export const weighingMeter = (meter: Meter | undefined): Meter =>
  meter === undefined
    ? UNKNOWN_METER
    : meter.accuracyPercent <= UNKNOWN_METER.accuracyPercent && meter.accuracyVolts <= UNKNOWN_METER.accuracyVolts
      ? UNKNOWN_METER
      : coarser(meter);

/** The same object for the same accuracy: likelihoods are remembered by it. */
const COARSE = new Map<string, Meter>();

function coarser({ accuracyPercent, accuracyVolts }: Meter): Meter {
  const key = `${accuracyPercent}/${accuracyVolts}`;
  const kept = COARSE.get(key);
  if (kept) return kept;
  const made = {
    ...UNKNOWN_METER,
    accuracyPercent: Math.max(accuracyPercent, UNKNOWN_METER.accuracyPercent),
    accuracyVolts: Math.max(accuracyVolts, UNKNOWN_METER.accuracyVolts),
  };
  COARSE.set(key, made);
  return made;
}
