/**
 * Scratch numbers for one hypothesis at a time: thousands of hypotheses each need a few small tables, and making
 * them anew costs more than filling them. `resetArena` takes everything back; nothing handed out before may be used
 * after it.
 */
let store = new Float64Array(1 << 14);
let used = 0;

export function resetArena(): void {
  used = 0;
}

/** `length` zeros, valid until the next `resetArena`. */
export function zeros(length: number): Float64Array {
  if (used + length > store.length) {
    // What was handed out keeps the old store alive.
    store = new Float64Array(Math.max(2 * store.length, 2 * length));
    used = 0;
  }
  const out = store.subarray(used, used + length);
  out.fill(0);
  used += length;
  return out;
}
