import type { ColorName } from '../../flow';

/** Made by `npm run calibrate:color` from 19703 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<ColorName, number>>;
} = {
  temperature: 0.8,
  threshold: {
    black: 0.0756,
    brown: 0.0363,
    red: 0.1151,
    orange: 0.0353,
    yellow: 0.3542,
    green: 0.2555,
    blue: 0.1045,
    violet: 0.0371,
    gray: 0.0533,
    white: 0.1629,
    pink: 0.0138,
    turquoise: 0.0216,
    'green-yellow': 0.2555,
  },
};
