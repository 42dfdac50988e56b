import { readFileSync } from 'node:fs';
import type { Failure } from './fuzz';
import type { Input, Json } from './target';

/** An input that once failed: run again in every test, so that it never fails again. */
export interface Kept {
  readonly target: string;
  readonly what: string;
  readonly input: Input;
}

interface Line {
  readonly target: string;
  readonly what: string;
  readonly base64?: string;
  readonly json?: Json;
}

export function corpusLine({ target, what, input }: Omit<Failure, 'seed' | 'case'>): string {
  const body = input instanceof Uint8Array ? { base64: Buffer.from(input).toString('base64') } : { json: input };
  return `${JSON.stringify({ target, what, ...body })}\n`;
}

export function readCorpus(): Kept[] {
  const text = readFileSync(new URL('./corpus.jsonl', import.meta.url), 'utf8').trim();
  return text
    .split('\n')
    .filter(Boolean)
    .map((line) => {
      const { target, what, base64, json } = JSON.parse(line) as Line;
      return {
        target,
        what,
        input: base64 === undefined ? (json ?? null) : new Uint8Array(Buffer.from(base64, 'base64')),
      };
    });
}
