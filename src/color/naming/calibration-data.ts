import type { ColorName } from '../../flow';

/** Made by `npm run calibrate:color`; see models/palette. */
export const CALIBRATION: {
  readonly temperature: number;
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<ColorName, number>>;
} = {
  temperature: 1.3,
  threshold: {
    black: 0.1,
    brown: 0.1,
    red: 0.1,
    orange: 0.1,
    yellow: 0.1,
    green: 0.1,
    blue: 0.1,
    violet: 0.1,
    gray: 0.1,
    white: 0.1,
    pink: 0.1,
    turquoise: 0.1,
    'green-yellow': 0.1,
  },
};
