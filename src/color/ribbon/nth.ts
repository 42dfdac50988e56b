/**
 * The value that would stand at index k of `values` were they sorted; reorders them. Linear time on average (C. A. R. Hoare,
 * "Algorithm 65: Find", 1961). Undefined when there is no such index.
 */
export function nth(values: Float64Array | Float32Array, k: number): number | undefined {
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const pivot = values[(from + to) >> 1]!;
    let i = from;
    let j = to;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const swapped = values[i]!;
      values[i++] = values[j]!;
      values[j--] = swapped;
    }
    if (k <= j) to = j;
    else if (k >= i) from = i;
    else break;
  }
  return values[k];
}
