/**
 * The number that sorting the first `count` of `values` upward would put at place `n` (from 0), without sorting: numbers
 * are moved about only until it lies there (quickselect; C. A. R. Hoare 1961, "Algorithm 65: Find"). Changes their order;
 * there may be no NaN among them. Undefined where there is no such place.
 */
export function nthSmallest(values: Float32Array | Float64Array, n: number, count = values.length): number | undefined {
  if (n >= count) return undefined;
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const pivot = values[(from + to) >> 1]!;
    let i = from;
    let j = to;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const kept = values[i]!;
      values[i++] = values[j]!;
      values[j--] = kept;
    }
    // What lies between j and i is the pivot, and in its place.
    if (n <= j) to = j;
    else if (n >= i) from = i;
    else break;
  }
  return values[n];
}
