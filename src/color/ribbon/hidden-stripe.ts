/** How often a single-colored insulation carries a tracer stripe at all. Assumed. */
const STRIPE_PRIOR = 0.06;
/** Half of all stripes run along, the others wind or ring round. Assumed. */
const ALONG_SHARE = 0.5;
/** Share of the circumference that one view resolves: what lies within 75 degrees of the line of sight. */
const SEEN_SHARE = 150 / 360;
/** A single stripe covers about this share of the circumference and shows when any of it does. Assumed. */
const STRIPE_SHARE = 0.1;
/** A stripe that runs along turns once in about this many diameters, because conductors twist when pulled. Assumed. */
const TWIST = 120;
/** Diameters between two rings or turns of a spiral: mean of an exponential. Assumed. */
const PITCH = 5;

/**
 * Probability that a stripe lies where the camera did not see it, given that none was seen: Bayes on a prior share of
 * striped insulation. `diameters` is the length that was seen; `missed` the probability that a visible stripe is
 * overlooked (1 where nothing can be resolved), 0 to 1. Valid for one view of one side.
 */
export function hiddenStripe(diameters: number, missed: number): number {
  const lookedAt = Math.min(1, SEEN_SHARE + STRIPE_SHARE + Math.max(0, diameters) / TWIST);
  const along = 1 - lookedAt;
  const round = Math.exp(-Math.max(0, diameters) / PITCH);
  const outOfSight = ALONG_SHARE * along + (1 - ALONG_SHARE) * round;
  const kept = Math.min(1, Math.max(0, missed));
  const unnoticed = outOfSight + (1 - outOfSight) * kept;
  return (STRIPE_PRIOR * unnoticed) / (STRIPE_PRIOR * unnoticed + 1 - STRIPE_PRIOR);
}
