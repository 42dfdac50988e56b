import type { ColorName } from '../../flow';

/** Made by `npm run calibrate:color` from 19703 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<ColorName, number>>;
} = {
  temperature: 0.85,
  threshold: {
    black: 0.0847,
    brown: 0.0385,
    red: 0.1181,
    orange: 0.039,
    yellow: 0.3583,
    green: 0.2756,
    blue: 0.1165,
    violet: 0.0369,
    gray: 0.0577,
    white: 0.169,
    pink: 0.0178,
    turquoise: 0.0255,
    'green-yellow': 0.2756,
  },
};
