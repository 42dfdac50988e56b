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
    [0.3158, 0.4137],
    [0.4059, 0.5027],
    [0.4605, 0.5369],
    [0.5087, 0.5716],
    [0.5616, 0.6563],
    [0.6175, 0.6776],
    [0.6786, 0.7526],
    [0.7389, 0.7971],
    [0.7951, 0.819],
    [0.843, 0.8726],
    [0.8854, 0.9068],
    [0.9241, 0.9409],
    [0.9551, 0.9695],
    [0.9769, 0.989],
    [0.9893, 0.9939],
    [0.9956, 0.9994],
    [1, 0.9994],
  ],
  threshold: {
    clear: {
      black: 0.0497,
      brown: 0.0332,
      red: 0.1343,
      orange: 0.052,
      yellow: 0.6021,
      green: 0.2729,
      blue: 0.1045,
      violet: 0.1221,
      gray: 0.0607,
      white: 0.1351,
      pink: 0.047,
      turquoise: 0.028,
      'green-yellow': 0.1,
    },
    poor: {
      black: 0.1163,
      brown: 0.0578,
      red: 0.1117,
      orange: 0.0227,
      yellow: 0.2059,
      green: 0.1759,
      blue: 0.0863,
      violet: 0.0489,
      gray: 0.0575,
      white: 0.1319,
      pink: 0.0109,
      turquoise: 0.013,
      'green-yellow': 0.1,
    },
  },
};
