import type { ColorName } from '../../flow';

/** Made by `npm run calibrate:color` from 19703 simulated readings; do not edit. */
export const CALIBRATION: {
  /** Probabilities are raised to 1 / temperature. */
  readonly temperature: number;
  /** A name belongs to the set when its probability is at least this. */
  readonly threshold: Readonly<Record<ColorName, number>>;
} = {
  "temperature": 0.8,
  "threshold": {
    "black": 0.0775,
    "brown": 0.0376,
    "red": 0.1156,
    "orange": 0.0355,
    "yellow": 0.3656,
    "green": 0.2625,
    "blue": 0.1072,
    "violet": 0.0373,
    "gray": 0.0517,
    "white": 0.1659,
    "pink": 0.014,
    "turquoise": 0.0216,
    "green-yellow": 0.2625
  }
};
