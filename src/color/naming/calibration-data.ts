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
  temperature: 1,
  reliability: [
    [0, 0],
    [0.3048, 0.4046],
    [0.3943, 0.4786],
    [0.4493, 0.5301],
    [0.497, 0.5748],
    [0.5461, 0.6403],
    [0.5945, 0.6902],
    [0.6495, 0.7015],
    [0.7086, 0.7622],
    [0.7612, 0.8247],
    [0.806, 0.8526],
    [0.8568, 0.8954],
    [0.9001, 0.9312],
    [0.9323, 0.966],
    [0.9545, 0.983],
    [0.9714, 0.9861],
    [0.9864, 0.9871],
    [1, 0.9871],
  ],
  threshold: {
    clear: {
      black: 0.0578,
      brown: 0.0364,
      red: 0.0633,
      orange: 0.0251,
      yellow: 0.3556,
      green: 0.2268,
      blue: 0.1068,
      violet: 0.056,
      gray: 0.0633,
      white: 0.1478,
      pink: 0.0076,
      turquoise: 0.0177,
      'green-yellow': 0.1,
    },
    poor: {
      black: 0.1207,
      brown: 0.0528,
      red: 0.0767,
      orange: 0.0262,
      yellow: 0.246,
      green: 0.0826,
      blue: 0.0967,
      violet: 0.0394,
      gray: 0.0564,
      white: 0.1187,
      pink: 0.0124,
      turquoise: 0.0162,
      'green-yellow': 0.1,
    },
  },
};
