/** Small seeded generator (mulberry32, public domain arithmetic): the same numbers on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  /** Whole number in [0, n). */
  below(n: number): number;
  pick<T>(list: readonly T[]): T;
  /** Index drawn with these weights. */
  weighted(weights: readonly number[]): number;
  chance(p: number): boolean;
}

export function random(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (n: number): number => Math.floor(next() * n);
  return {
    next,
    below,
    pick: (list) => list[below(list.length)]!,
    weighted(weights) {
      let left = next() * weights.reduce((a, b) => a + b, 0);
      for (let i = 0; i < weights.length; i++) {
        left -= weights[i]!;
        if (left < 0) return i;
      }
      return weights.length - 1;
    },
    chance: (p) => next() < p,
  };
}
