/**
 * Log-odds of the reader to log-odds that hold: fitted by test/vision/ribbon/calibrate.py on rendered conductors that the
 * reader was not trained on. Those scenes have marks on a third of the conductors; what is met on site is put at a
 * tenth (assumed), which takes 1.3 off the stripe's.
 */
export const MARK_CALIBRATION = {
  stripe: { scale: 0.86, shift: -1.96 },
  tape: { scale: 1, shift: -1.2, length: 0 },
  bare: { scale: 1, shift: -1.2, length: 0 },
} as const;
