/** What became of the mutants of a sample. */
export interface Tally {
  readonly killed: number;
  readonly survived: number;
  readonly uncovered: number;
}

export interface Score {
  /** Share of the mutants that tests noticed, 0 to 1. */
  readonly share: number;
  /** 95 % interval of that share among all mutants. */
  readonly low: number;
  readonly high: number;
}

/** Two-sided 95 % point of the standard normal distribution. */
const Z = 1.959964;

/**
 * Killed over all, with the interval of E. B. Wilson, "Probable inference, the law of succession, and statistical
 * inference", J. Am. Stat. Assoc. 22 (1927) 209-212. All of 0 to 1 when there is no mutant.
 */
export function scoreOf({ killed, survived, uncovered }: Tally): Score {
  const n = killed + survived + uncovered;
  if (n === 0) return { share: 0, low: 0, high: 1 };
  const share = killed / n;
  const middle = (share + Z ** 2 / (2 * n)) / (1 + Z ** 2 / n);
  const half = (Z / (1 + Z ** 2 / n)) * Math.sqrt((share * (1 - share)) / n + Z ** 2 / (4 * n ** 2));
  return { share, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}
