import type { ColorName } from '../../flow';
import type { Quality } from './quality';

/** Made by `npm run calibrate:color` from 104392 simulated readings; do not edit. */
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
    [0.3244, 0.4211],
    [0.4197, 0.4783],
    [0.4748, 0.5401],
    [0.5243, 0.582],
    [0.5745, 0.6557],
    [0.6282, 0.6775],
    [0.6885, 0.7296],
    [0.7461, 0.8024],
    [0.7921, 0.8359],
    [0.8431, 0.8615],
    [0.8887, 0.903],
    [0.9232, 0.9478],
    [0.9459, 0.9732],
    [0.9626, 0.9873],
    [0.9759, 0.994],
    [0.9886, 0.9971],
    [1, 0.9971],
  ],
  threshold: {
    clear: {
      black: 0.0427,
      brown: 0.0326,
      red: 0.1166,
      orange: 0.0522,
      yellow: 0.3805,
      green: 0.321,
      blue: 0.131,
      violet: 0.0783,
      gray: 0.0664,
      white: 0.1472,
      pink: 0.0245,
      turquoise: 0.0324,
      'green-yellow': 0.1,
    },
    poor: {
      black: 0.1228,
      brown: 0.0487,
      red: 0.1129,
      orange: 0.0291,
      yellow: 0.2904,
      green: 0.1516,
      blue: 0.0809,
      violet: 0.0414,
      gray: 0.0547,
      white: 0.1183,
      pink: 0.0138,
      turquoise: 0.0197,
      'green-yellow': 0.1,
    },
  },
};
