/**
 * Prints how long a plan and a verdict take for 6, 12, 23 and 40 conductors: before any reading, and with half of
 * the live checks in.
 *
 *   npx tsx test/verify/plan-time.ts
 */
import type { Reading } from '../../src/flow';
import { judge, planChecks, planFirst } from '../../src/verify';
import { gutterOf } from './sim/gutter';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const SIZES = (process.argv[2] ?? '6,12,23,40').split(',').map(Number);
const REPEATS = 3;

const median = (xs: number[]): number => xs.sort((a, b) => a - b)[xs.length >> 1] ?? 0;
const timed = (work: () => unknown): number => {
  const started = performance.now();
  work();
  return performance.now() - started;
};

/** Fresh copies, as a worker gets them: nothing remembered of an earlier call can help. */
function row(size: number, readings: readonly Reading[], label: string): void {
  const { map } = gutterOf(size).site;
  const plan: number[] = [];
  const first: number[] = [];
  const verdict: number[] = [];
  for (let k = 0; k < REPEATS; k++) {
    const [mapAnew, readingsAnew] = structuredClone([map, readings] as const);
    verdict.push(timed(() => judge(mapAnew, readingsAnew, OPTIONS)));
    first.push(timed(() => planFirst(mapAnew, readingsAnew, OPTIONS)));
    plan.push(timed(() => planChecks(mapAnew, readingsAnew, OPTIONS)));
  }
  const ms = (xs: number[]): string => `${median(xs).toFixed(0)} ms (worst ${Math.max(...xs).toFixed(0)})`;
  console.log(`${size} conductors, ${label}: verdict ${ms(verdict)}, first plan ${ms(first)}, full plan ${ms(plan)}`);
}

for (const size of SIZES) {
  row(size, [], 'no reading');
  row(size, gutterOf(size).half, 'half of the readings');
}
