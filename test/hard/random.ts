/** Seeded random numbers in 0 to 1 (mulberry32, public domain): the same seed gives the same cases everywhere. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A standard normal number (Box and Muller 1958). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

export const pick = <T>(random: () => number, all: readonly T[]): T => all[Math.floor(random() * all.length)]!;

/** A whole number from `low` to `high`, both possible. */
export const between = (random: () => number, low: number, high: number): number =>
  low + Math.floor(random() * (high - low + 1));
