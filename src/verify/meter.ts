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
