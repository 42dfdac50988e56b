import type { Tape } from '../../flow';

/**
 * Marking must encircle (NEC 200.6(B), 200.7(C)(1), 250.119). From this share of the seen side on, tape counts as
 * going all the way over: rims are blurred and foreshortened. An assumption of ours.
 */
export const GOES_OVER = 0.7;
/** What is left of the weight of tape that was seen to cover almost nothing: a label or a smear looks like that. */
const LEAST = 0.4;

/** Was it seen that the tape leaves part of the near side bare? False where nobody said how far it reaches. */
export const leavesBare = (tape: Tape): boolean => tape.cover !== undefined && tape.cover < GOES_OVER;

/** Probability that this is marking tape: the reader's, weighed down where it was seen not to go over the conductor. */
export function tapeConfidence(tape: Tape): number {
  const confidence = Math.min(0.995, Math.max(0, tape.confidence));
  if (!leavesBare(tape)) return confidence;
  const share = Math.max(0, tape.cover ?? 0) / GOES_OVER;
  return confidence * (LEAST + (1 - LEAST) * share);
}
