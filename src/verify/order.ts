import { effort, type Probing } from './effort';

/** One thing that may be true, and which checks would contradict the present map if it were. */
export interface Hypothesis {
  readonly probability: number;
  /** By index of check: would this check show it? */
  readonly shows: readonly boolean[];
}

export interface OrderProblem {
  readonly checks: readonly Probing[];
  readonly hypotheses: readonly Hypothesis[];
  /** Where the leads are now; null at the start. */
  readonly last: Probing | null;
}

/**
 * Expected work of an order until the map is either proved (all checks made) or refuted (the first check that
 * shows another hypothesis to be true stops the list). This is what the plan minimizes.
 */
export function expectedWork(problem: OrderProblem, order: readonly number[]): number {
  const alive = problem.hypotheses.map((h) => h.probability);
  let left = alive.reduce((a, b) => a + b, 0);
  let work = 0;
  let last = problem.last;
  for (const index of order) {
    const check = problem.checks[index];
    if (!check) continue;
    work += left * effort(last, check);
    last = check;
    for (const [h, hypothesis] of problem.hypotheses.entries()) {
      if (!hypothesis.shows[index]) continue;
      left -= alive[h] ?? 0;
      alive[h] = 0;
    }
  }
  return work;
}

/** Most likely to refute per effort first; a cheap step that refutes nothing comes before a dear one. */
function greedy(problem: OrderProblem): number[] {
  const alive = problem.hypotheses.map((h) => h.probability);
  const left = new Set(problem.checks.keys());
  const order: number[] = [];
  let last = problem.last;
  while (left.size > 0) {
    let best = -1;
    let bestRate = -1;
    for (const index of left) {
      const check = problem.checks[index];
      if (!check) continue;
      const refutes = problem.hypotheses.reduce((sum, h, i) => sum + (h.shows[index] ? (alive[i] ?? 0) : 0), 0);
      const rate = (refutes + 0.002) / effort(last, check);
      if (rate > bestRate) {
        best = index;
        bestRate = rate;
      }
    }
    order.push(best);
    left.delete(best);
    last = problem.checks[best] ?? last;
    for (const [h, hypothesis] of problem.hypotheses.entries()) if (hypothesis.shows[best]) alive[h] = 0;
  }
  return order;
}

/** Improvement stops after this many trial orders, so that a full gutter is planned within tens of milliseconds. */
const TRIALS = 6000;

/** Moves runs of one to three checks, and turns runs round, while that saves work. */
function improve(problem: OrderProblem, start: readonly number[]): number[] {
  let order = [...start];
  let work = expectedWork(problem, order);
  let trials = 0;
  let better = true;
  const consider = (candidate: number[]): void => {
    trials += 1;
    const cost = expectedWork(problem, candidate);
    if (cost < work - 1e-9) {
      order = candidate;
      work = cost;
      better = true;
    }
  };
  while (better && trials < TRIALS) {
    better = false;
    for (let i = 0; i < order.length && trials < TRIALS; i++) {
      for (const length of [1, 2, 3]) {
        for (let j = 0; j <= order.length - length && trials < TRIALS; j++) {
          if (j === i || i + length > order.length) continue;
          const run = order.slice(i, i + length);
          const rest = [...order.slice(0, i), ...order.slice(i + length)];
          consider([...rest.slice(0, j), ...run, ...rest.slice(j)]);
        }
      }
      for (let j = i + 2; j <= order.length && trials < TRIALS; j++)
        consider([...order.slice(0, i), ...order.slice(i, j).reverse(), ...order.slice(j)]);
    }
  }
  return order;
}

/** The order shipped: greedy by refutation per effort, then local improvement of the expected work. */
export const orderChecks = (problem: OrderProblem): number[] => improve(problem, greedy(problem));
