/**
 * Log-odds of the readers to log-odds that hold: fitted on rendered conductors that they were not trained on
 * (models/training/ribbon/calibrate.py; the wide and the outer reader together but for bare metal, where what the wide one
 * was fitted to is kept), then shifted toward silence, by 0.3 (bare metal, seldom sure anyway) to 1.1 (tape, stripes): those scenes
 * have marks on a third of the conductors, a real place on few, and a mark that is not there is worse than one not told. Stripes are also asked to go on
 * along the conductor (recurs.ts), so they need less of it.
 */
export const MARK_CALIBRATION = {
  narrowStripe: { scale: 1.1, shift: -0.8 },
  outerStripe: { scale: 0.62, shift: -0.7 },
  stripe: { scale: 0.88, shift: -0.45 },
  tape: { scale: 1.56, shift: -1.2 },
  bare: { scale: 1.16, shift: -4 },
} as const;
