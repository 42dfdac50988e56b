import { seeded } from '../random';
import type { Input, Target } from './target';
import { TARGETS } from './targets';

export interface Failure {
  readonly target: string;
  readonly seed: number;
  readonly case: number;
  readonly what: string;
  readonly input: Input;
}

/** A case takes no longer than this; the watchdog of the command ends one that never comes back. */
export const LONGEST_MS = 10_000;

const total = TARGETS.reduce((sum, t) => sum + t.share, 0);

function targetFor(share: number): Target {
  let rest = share * total;
  for (const target of TARGETS) {
    rest -= target.share;
    if (rest < 0) return target;
  }
  return TARGETS[0]!;
}

/** The case with a number: the same for the same seed, whichever cases ran before it. */
export function caseOf(seed: number, number: number): { readonly target: Target; readonly input: Input } {
  const random = seeded(seed * 1_000_003 + number);
  const target = targetFor(random());
  return { target, input: target.make(random) };
}

/** Runs one input; the failure in words, or null. */
export async function failureOf(target: Target, input: Input): Promise<string | null> {
  const begun = performance.now();
  try {
    await target.check(input);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  const took = performance.now() - begun;
  return took > LONGEST_MS ? `hang: ${Math.round(took)} ms` : null;
}

/** Runs cases `from` to `to` (left out). `begins` is told each case before it runs. */
export async function fuzz(
  seed: number,
  from: number,
  to: number,
  begins: (number: number) => void = () => {},
): Promise<Failure[]> {
  const failures: Failure[] = [];
  for (let number = from; number < to; number++) {
    begins(number);
    const { target, input } = caseOf(seed, number);
    const what = await failureOf(target, input);
    if (what) failures.push({ target: target.name, seed, case: number, what, input });
  }
  return failures;
}
