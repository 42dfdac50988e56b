/** Where a pixel of one row or column lies between two of another: half-pixel centers, as in the network itself. */
export interface Between {
  readonly low: Int32Array;
  readonly high: Int32Array;
  readonly weight: Float32Array;
}

/** Pixels of a row of `from` for each pixel of a row of `to`. */
export function between(from: number, to: number): Between {
  const step = from / to;
  const low = new Int32Array(to);
  const high = new Int32Array(to);
  const weight = new Float32Array(to);
  for (let i = 0; i < to; i++) {
    const at = Math.min(from - 1, Math.max(0, (i + 0.5) * step - 0.5));
    low[i] = Math.floor(at);
    high[i] = Math.min(from - 1, low[i]! + 1);
    weight[i] = at - low[i]!;
  }
  return { low, high, weight };
}
