/**
 * Places of values from the greatest to the smallest, equal ones in their order. Made as they are asked for (a heap;
 * Williams 1964, "Algorithm 232: Heapsort"), for lists of which only the beginning is looked at.
 */
export function* descending(values: Float64Array): Generator<number, void> {
  const heap = new Int32Array(values.length);
  for (let k = 0; k < heap.length; k++) heap[k] = k;
  let size = heap.length;
  const before = (a: number, b: number): boolean => values[a]! > values[b]! || (values[a] === values[b] && a < b);
  const sink = (from: number): void => {
    const place = heap[from]!;
    let at = from;
    for (let child = 2 * at + 1; child < size; child = 2 * at + 1) {
      if (child + 1 < size && before(heap[child + 1]!, heap[child]!)) child++;
      if (before(place, heap[child]!)) break;
      heap[at] = heap[child]!;
      at = child;
    }
    heap[at] = place;
  };
  for (let at = (size >> 1) - 1; at >= 0; at--) sink(at);
  while (size > 0) {
    yield heap[0]!;
    heap[0] = heap[--size]!;
    if (size > 0) sink(0);
  }
}
