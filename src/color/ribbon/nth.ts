/**
 * The value that would stand at index k were the first `count` of `values` sorted; reorders them. Linear time on average
 * (C. A. R. Hoare, "Algorithm 65: Find", 1961). Undefined when `values` has no such index.
 */
export function nth(values: Float64Array | Float32Array, k: number, count = values.length): number | undefined {
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
