import { effortBetween, type Probing, placed } from './effort';

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

/** An ordering problem with its efforts worked out and only what each check shows written down. */
interface Compiled {
  readonly size: number;
  /** Effort from check i to check j at `i * size + j`. */
  readonly cost: Float64Array;
  /** Effort from where the leads are now. */
  readonly first: Float64Array;
  /** By check: the hypotheses it would show. */
  readonly shown: readonly (readonly number[])[];
  readonly probability: Float64Array;
  readonly total: number;
}

/** Hypotheses that the same checks show are one for the order. */
function merged(hypotheses: readonly Hypothesis[]): { probability: number; checks: number[] }[] {
  const found = new Map<string, { probability: number; checks: number[] }>();
  for (const { probability, shows } of hypotheses) {
    const checks = shows.flatMap((shown, i) => (shown ? [i] : []));
    const key = checks.join();
    const known = found.get(key);
    if (known) known.probability += probability;
    else found.set(key, { probability, checks });
  }
  return [...found.values()];
}

function compile({ checks, hypotheses, last }: OrderProblem): Compiled {
  const size = checks.length;
  const cost = new Float64Array(size * size);
  const all = checks.map(placed);
  const start = last && placed(last);
  for (const [i, from] of all.entries())
    for (const [j, to] of all.entries()) cost[i * size + j] = effortBetween(from, to);
  const worlds = merged(hypotheses);
  const shown: number[][] = checks.map(() => []);
  for (const [h, one] of worlds.entries()) for (const c of one.checks) shown[c]?.push(h);
  return {
    size,
    cost,
    first: Float64Array.from(all, (to) => effortBetween(start, to)),
    shown,
    probability: Float64Array.from(worlds, (h) => h.probability),
    total: worlds.reduce((sum, h) => sum + h.probability, 0),
  };
}

/** Work of an order, and what is left to believe after each check; `seen` is scratch room, one byte a hypothesis. */
function workOf(problem: Compiled, order: readonly number[], seen: Uint8Array): number {
  const { size, cost, first, shown, probability } = problem;
  seen.fill(0);
  let left = problem.total;
  let work = 0;
  let last = -1;
  for (const index of order) {
    work += left * ((last < 0 ? first[index] : cost[last * size + index]) as number);
    last = index;
    for (const h of shown[index] as readonly number[]) {
      if (seen[h]) continue;
      seen[h] = 1;
      left -= probability[h] as number;
    }
  }
  return work;
}

/**
 * Expected work of an order until the map is either proved (all checks made) or refuted (the first check that
 * shows another hypothesis to be true stops the list). This is what the plan minimizes.
 */
export function expectedWork(problem: OrderProblem, order: readonly number[]): number {
  const compiled = compile(problem);
  return workOf(compiled, order, new Uint8Array(compiled.probability.length));
}

/** So small a chance of refuting anything still leaves the cheap step first. */
const NO_NEWS = 0.002;

/** Most likely to refute per effort first. */
function greedy({ size, cost, first, shown, probability }: Compiled): number[] {
  const seen = new Uint8Array(probability.length);
  const left = new Set(Array(size).keys());
  const order: number[] = [];
  let last = -1;
  while (left.size > 0) {
    let best = -1;
    let bestRate = -1;
    for (const index of left) {
      let refutes = NO_NEWS;
      for (const h of shown[index] as readonly number[]) if (!seen[h]) refutes += probability[h] as number;
      const rate = refutes / ((last < 0 ? first[index] : cost[last * size + index]) as number);
      if (rate > bestRate) {
        best = index;
        bestRate = rate;
      }
    }
    order.push(best);
    left.delete(best);
    last = best;
    for (const h of shown[best] as readonly number[]) seen[h] = 1;
  }
  return order;
}

/** Steps of work allowed for improvement, so that a full gutter is planned within a blink. */
const STEPS = 2_000_000;

/** Moves runs of one to three checks, and turns runs round, while that saves work. */
function improve(problem: Compiled, start: readonly number[]): number[] {
  const seen = new Uint8Array(problem.probability.length);
  const steps = problem.size + problem.shown.reduce((sum, s) => sum + s.length, 0);
  const trials = STEPS / Math.max(steps, 1);
  let order = [...start];
  let work = workOf(problem, order, seen);
  let tried = 0;
  let better = true;
  const consider = (candidate: number[]): void => {
    tried += 1;
    const cost = workOf(problem, candidate, seen);
    if (cost < work - 1e-9) {
      order = candidate;
      work = cost;
      better = true;
    }
  };
  while (better && tried < trials) {
    better = false;
    for (let i = 0; i < order.length && tried < trials; i++) {
      for (const length of [1, 2, 3]) {
        for (let j = 0; j <= order.length - length && tried < trials; j++) {
          if (j === i || i + length > order.length) continue;
          const run = order.slice(i, i + length);
          const rest = [...order.slice(0, i), ...order.slice(i + length)];
          consider([...rest.slice(0, j), ...run, ...rest.slice(j)]);
        }
      }
      for (let j = i + 2; j <= order.length && tried < trials; j++)
        consider([...order.slice(0, i), ...order.slice(i, j).reverse(), ...order.slice(j)]);
    }
  }
  return order;
}

/** A good order at once: most likely to refute per effort first. `orderChecks` starts from it. */
export const quickOrder = (problem: OrderProblem): number[] => greedy(compile(problem));

/** The order shipped: greedy by refutation per effort, then local improvement of the expected work. */
export function orderChecks(problem: OrderProblem): number[] {
  const compiled = compile(problem);
  return improve(compiled, greedy(compiled));
}
