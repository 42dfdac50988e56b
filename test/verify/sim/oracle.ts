import { effort } from '../../../src/verify/effort';
import type { OrderProblem } from '../../../src/verify/order';

/** More checks than this make the table too large. */
export const ORACLE_CHECKS = 16;

/**
 * Least possible expected work, by dynamic programming over every set of checks made and the last of them: exact,
 * because what is still believed depends on the set alone and the next effort on the last check alone.
 */
export function leastWork({ checks, hypotheses, last }: OrderProblem): number {
  const m = checks.length;
  if (m > ORACLE_CHECKS) throw new Error(`${m} checks are too many for the oracle`);
  if (m === 0) return 0;
  const full = (1 << m) - 1;
  const masks = hypotheses.map((h) => h.shows.reduce((mask, shown, i) => (shown ? mask | (1 << i) : mask), 0));
  const alive = (done: number): number =>
    hypotheses.reduce((sum, h, k) => ((masks[k] as number) & done ? sum : sum + h.probability), 0);
  const cost = checks.map((from) => checks.map((to) => effort(from, to)));
  const first = checks.map((to) => effort(last, to));
  const best = new Float64Array((full + 1) * m);
  for (let done = full - 1; done > 0; done--) {
    const left = alive(done);
    for (let at = 0; at < m; at++) {
      if (!(done & (1 << at))) continue;
      let least = Number.POSITIVE_INFINITY;
      for (let next = 0; next < m; next++) {
        if (done & (1 << next)) continue;
        const work = left * (cost[at] as number[])[next]! + (best[(done | (1 << next)) * m + next] as number);
        if (work < least) least = work;
      }
      best[done * m + at] = least;
    }
  }
  const start = alive(0);
  return Math.min(...first.map((work, next) => start * work + (best[(1 << next) * m + next] as number)));
}
