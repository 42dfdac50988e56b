import type { ColorName } from '../../flow';

/** Made by `npm run calibrate:color` from 19703 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<ColorName, number>>;
} = {
  temperature: 0.9,
  threshold: {
    black: 0.0976,
    brown: 0.0506,
    red: 0.1399,
    orange: 0.0446,
    yellow: 0.3512,
    green: 0.2759,
    blue: 0.1231,
    violet: 0.0512,
    gray: 0.0732,
    white: 0.1811,
    pink: 0.0201,
    turquoise: 0.0264,
    'green-yellow': 0.1,
  },
};
