import type { ColorName } from '../../flow';
import type { Quality } from './quality';

/** Made by `npm run calibrate:color` from 2375 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** What the best name was said with and how often it was right then, rising. */
  readonly reliability: readonly (readonly [said: number, right: number])[];
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<Quality, Readonly<Record<ColorName, number>>>>;
} = {
  temperature: 0.9,
  reliability: [
    [0, 0],
    [0.3353, 0.4832],
    [0.4309, 0.4899],
    [0.4841, 0.5298],
    [0.5409, 0.5894],
    [0.594, 0.6689],
    [0.6467, 0.6821],
    [0.7092, 0.7616],
    [0.7721, 0.8079],
    [0.8475, 0.8567],
    [0.9074, 0.9007],
    [0.956, 0.97],
    [0.9856, 0.9868],
    [0.9953, 0.9966],
    [1, 0.9966],
  ],
  threshold: {
    clear: {
      black: 0.0835,
      brown: 0.0511,
      red: 0.1095,
      orange: 0.047,
      yellow: 0.2792,
      green: 0.2569,
      blue: 0.0419,
      violet: 0.1972,
      gray: 0.0325,
      white: 0.0575,
      pink: 0.0155,
      turquoise: 0.1993,
      'green-yellow': 0.1,
    },
    poor: {
      black: 0.0956,
      brown: 0.0597,
      red: 0.1243,
      orange: 0.0257,
      yellow: 0.1026,
      green: 0.2225,
      blue: 0.0744,
      violet: 0.0086,
      gray: 0.0489,
      white: 0.0393,
      pink: 0.0143,
      turquoise: 0.0172,
      'green-yellow': 0.1,
    },
  },
};
