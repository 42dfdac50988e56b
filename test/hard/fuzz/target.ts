import { Problem, type ProblemKind } from '../../../src/flow';

/** What a fuzzer's case is made of: bytes, or a JSON value. Kept as it is when it fails. */
export type Input = Uint8Array | Json;
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** One way in from outside. `check` throws when the program crashed or was silently wrong. */
export interface Target {
  readonly name: string;
  /** Cases of this target in a hundred. */
  readonly share: number;
  make(random: () => number): Input;
  check(input: Input): Promise<void> | void;
}

/** The program's own answer to bad input. Anything else thrown is a crash. */
export async function outcome<T>(
  work: () => T | Promise<T>,
  allowed: readonly ProblemKind[],
): Promise<{ readonly value: T } | { readonly problem: ProblemKind }> {
  try {
    return { value: await work() };
  } catch (error) {
    if (error instanceof Problem && allowed.includes(error.kind)) return { problem: error.kind };
    throw new Error(`crash: ${error instanceof Problem ? `Problem ${error.kind}` : String(error)}`, { cause: error });
  }
}

export function must(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(`silently wrong: ${what}`);
}

export const bytesOf = (input: Input): Uint8Array => {
  if (!(input instanceof Uint8Array)) throw new Error('this target takes bytes');
  return input;
};

export const jsonOf = (input: Input): Json => {
  if (input instanceof Uint8Array) throw new Error('this target takes JSON');
  return input;
};
