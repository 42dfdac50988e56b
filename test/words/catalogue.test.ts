import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Problem, type ProblemKind } from '../../src/flow';
import { say } from '../../src/words';
import { EN } from '../../src/words/en';

const ROOT = new URL('../../src/', import.meta.url).pathname;
const CODE = /'((?:color|command|identify|photo|problem|record|screen|verify)\.[a-z0-9-]+(?:\.[a-z0-9-]+)*)'/gi;

const sources = readdirSync(ROOT, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name) && !name.startsWith('words/'))
  .map((name) => ({ name, text: readFileSync(join(ROOT, name), 'utf8') }));

/** A name such as "record.zip" reads like a code. */
const FILE = /^\w+\.(zip|json|csv|pdf)$/;

/** A code, or the head of a numbered family (`-1` to `-3`) that `colorListMessage` picks from by length. */
const isKnown = (code: string): boolean => code in EN || [1, 2, 3].every((n) => `${code}-${n}` in EN);

describe('the catalogue', () => {
  it('has a sentence for every code that stands in the sources', () => {
    const missing = sources.flatMap(({ name, text }) =>
      [...text.matchAll(CODE)]
        .filter(([, code]) => !FILE.test(code as string) && !isKnown(code as string))
        .map(([, code]) => `${name}: ${code}`),
    );
    expect(missing).toEqual([]);
    expect(sources.length).toBeGreaterThan(50);
  });

  it('has what happened and what to do for every kind of problem', () => {
    const declared = readFileSync(join(ROOT, 'flow/errors.ts'), 'utf8').matchAll(/^ {2}\| '([a-z ]+)'/gm);
    const kinds = [...declared].map(([, kind]) => kind as ProblemKind);
    expect(kinds).toContain('truncated picture');
    for (const kind of kinds) {
      const problem = new Problem(kind);
      expect(say(problem.what), kind).not.toBe(problem.what.code);
      expect(say(problem.todo), kind).not.toBe(problem.todo.code);
    }
  });

  it('returns a code it does not know, so that a gap is seen (twin)', () => {
    expect(say({ code: 'photo.no-such-code' })).toBe('photo.no-such-code');
    expect(isKnown('photo.no-such-code')).toBe(false);
  });
});
