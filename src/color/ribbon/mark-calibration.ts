/**
 * Log-odds of the reader to log-odds that hold: fitted by models/training/ribbon/calibrate.py on rendered conductors that
 * the reader was not trained on, then shifted toward silence (stripe -0.9, tape and bare -1.2): those scenes have marks
 * on a third of the conductors, a real place on few, and a mark that is not there is worse than one not told. Stripes are
 * also asked to go on along the conductor (recurs.ts), so they need less of it.
 */
export const MARK_CALIBRATION = {
  stripe: { scale: 0.73, shift: -0.89 },
  tape: { scale: 1.13, shift: -1.42, length: 0 },
  bare: { scale: 1.13, shift: -1.42, length: 0 },
} as const;
