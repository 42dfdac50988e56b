import type { ColorName } from '../../flow';
import type { Quality } from './quality';

/** Made by `npm run calibrate:color` from 26214 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** What the best name was said with and how often it was right then, rising. */
  readonly reliability: readonly (readonly [said: number, right: number])[];
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<Quality, Readonly<Record<ColorName, number>>>>;
} = {
  temperature: 0.95,
  reliability: [
    [0, 0],
    [0.315, 0.4112],
    [0.4059, 0.4893],
    [0.4598, 0.5442],
    [0.5074, 0.5746],
    [0.5585, 0.6612],
    [0.6081, 0.6843],
    [0.6672, 0.7355],
    [0.7258, 0.7965],
    [0.7757, 0.8336],
    [0.8254, 0.8605],
    [0.8725, 0.9086],
    [0.9123, 0.9348],
    [0.9396, 0.9738],
    [0.9593, 0.9854],
    [0.9745, 0.9915],
    [0.9879, 0.9975],
    [1, 0.9975],
  ],
  threshold: {
    clear: {
      black: 0.0488,
      brown: 0.032,
      red: 0.1341,
      orange: 0.0432,
      yellow: 0.595,
      green: 0.2661,
      blue: 0.1024,
      violet: 0.1188,
      gray: 0.0578,
      white: 0.1326,
      pink: 0.0429,
      turquoise: 0.0249,
      'green-yellow': 0.1,
    },
    poor: {
      black: 0.1153,
      brown: 0.057,
      red: 0.1106,
      orange: 0.0212,
      yellow: 0.2041,
      green: 0.1689,
      blue: 0.0875,
      violet: 0.0465,
      gray: 0.0562,
      white: 0.1307,
      pink: 0.0127,
      turquoise: 0.0136,
      'green-yellow': 0.1,
    },
  },
};
