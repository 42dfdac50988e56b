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
    black: 0.0838,
    brown: 0.0393,
    red: 0.1234,
    orange: 0.0321,
    yellow: 0.3558,
    green: 0.2841,
    blue: 0.1097,
    violet: 0.0427,
    gray: 0.0572,
    white: 0.1745,
    pink: 0.0135,
    turquoise: 0.0201,
    'green-yellow': 0.2841,
  },
};
