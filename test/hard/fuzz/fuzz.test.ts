import { describe, expect, it } from 'vitest';
import { readCorpus } from './corpus';
import { caseOf, failureOf, fuzz } from './fuzz';
import { must, outcome, type Target } from './target';
import { TARGETS } from './targets';
import { photoCut, WHOLE } from './targets/photo';
import { readings } from './targets/readings';

/** 2,000 of the cases that `npm run hard:fuzz -- --cases 100000` runs. */
const CASES = 2000;

describe('bad input', () => {
  it('neither crashes, hangs nor is silently taken for good', async () => {
    const failures = await fuzz(1, 0, CASES);
    expect(failures.map((f) => `case ${f.case}, ${f.target}: ${f.what}`)).toEqual([]);
  }, 240_000);

  it('reaches every way in', () => {
    const reached = new Set(Array.from({ length: CASES }, (_, k) => caseOf(1, k).target.name));
    expect([...reached].sort()).toEqual(TARGETS.map((t) => t.name).sort());
  });

  it.each(readCorpus().map((kept) => [`${kept.target}: ${kept.what}`, kept] as const))(
    'stays mended: %s',
    async (_, { target, input }) => {
      const found = TARGETS.find((t) => t.name === target);
      expect(found).toBeDefined();
      expect(await failureOf(found!, input)).toBeNull();
    },
  );
});

describe('the fuzzer would notice', () => {
  const broken = (check: Target['check']): Target => ({ name: 'broken', share: 1, make: () => 0, check });

  it('a crash', async () => {
    const crashing = broken(async () => {
      await outcome(() => JSON.parse('{'), []);
    });
    expect(await failureOf(crashing, 0)).toMatch(/crash: SyntaxError/);
  });

  it('a broken promise', async () => {
    expect(
      await failureOf(
        broken(() => must(1 > 2, 'one above two')),
        0,
      ),
    ).toBe('silently wrong: one above two');
  });

  it('one picture that passes for another', async () => {
    // The whole second picture, said to be the first.
    const swapped = Uint8Array.from([2, ...WHOLE[1]!.bytes]);
    expect(await failureOf(photoCut, swapped)).toBe('silently wrong: half a picture passed as whole');
  });

  it('that the same seed gives the same cases', () => {
    expect(caseOf(7, 123)).toEqual(caseOf(7, 123));
    expect(caseOf(7, 123)).not.toEqual(caseOf(8, 123));
  });

  it('a reading that the verdict cannot be judged on', async () => {
    expect(await failureOf(readings, [null])).toMatch(/null/);
  });
});
