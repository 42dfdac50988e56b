/** Seeded generator (mulberry32), so that every simulated site can be made again from its number. */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** 0 up to but not 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  pick<T>(from: readonly T[]): T {
    const one = from[Math.floor(this.next() * from.length)];
    if (one === undefined) throw new Error('nothing to pick from');
    return one;
  }

  shuffled<T>(from: readonly T[]): T[] {
    const left = [...from];
    for (let i = left.length - 1; i > 0; i--) {
      const j = Math.floor(this.next() * (i + 1));
      [left[i], left[j]] = [left[j] as T, left[i] as T];
    }
    return left;
  }
}
