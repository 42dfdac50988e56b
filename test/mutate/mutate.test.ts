import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { mutantsOf, rangeOf } from './list';
import { chosen, placeOf } from './sample.mjs';
import { scoreOf } from './score';

describe('the score of a sample', () => {
  it('has the interval of Wilson 1927: 81 of 263, as worked by Newcombe (Stat. Med. 17, 1998, 857; from memory)', () => {
    const { share, low, high } = scoreOf({ killed: 81, survived: 180, uncovered: 2 });
    expect(share).toBeCloseTo(0.308, 3);
    expect(low).toBeCloseTo(0.2553, 3);
    expect(high).toBeCloseTo(0.3662, 3);
  });

  it('says nothing of nothing, and is open to one side at the ends', () => {
    expect(scoreOf({ killed: 0, survived: 0, uncovered: 0 })).toEqual({ share: 0, low: 0, high: 1 });
    expect(scoreOf({ killed: 20, survived: 0, uncovered: 0 })).toMatchObject({ share: 1, high: 1 });
    expect(scoreOf({ killed: 20, survived: 0, uncovered: 0 }).low).toBeLessThan(0.9);
  });

  it('twin: what no test reaches counts against it', () => {
    expect(scoreOf({ killed: 5, survived: 0, uncovered: 5 }).share).toBe(0.5);
  });
});

describe('the sample of mutants', () => {
  const mutants = Array.from({ length: 400 }, (_, k) => ({
    id: String(k),
    fileName: `/anywhere/src/color/a${k % 7}.ts`,
    location: { start: { line: k, column: 1 }, end: { line: k, column: 9 } },
    mutatorName: 'BooleanLiteral',
    replacement: 'false',
  }));
  const sample = (seed: number, from: number, count: number, of = mutants) => chosen(of, { seed, from, count });

  it('is the same for the same seed, wherever the project lies, and goes on where it stopped', () => {
    const moved = mutants.map((m) => ({ ...m, fileName: m.fileName.replace('/anywhere', '/else/where') })).reverse();
    expect(sample(3, 0, 50, moved)).toEqual(sample(3, 0, 50));
    expect([...sample(3, 0, 50), ...sample(3, 50, 50)]).toEqual(sample(3, 0, 100));
    expect(new Set(sample(3, 0, 400)).size).toBe(400);
  });

  it('twin: another seed gives another sample, that shares about as many as chance would', () => {
    const one = new Set(sample(1, 0, 100));
    const both = sample(2, 0, 100).filter((id) => one.has(id)).length;
    // Hypergeometric: mean 25, standard deviation 3.8.
    expect(both).toBeGreaterThan(10);
    expect(both).toBeLessThan(40);
  });
});

describe('the place of a mutant', () => {
  it('is one for each: no two of a whole room share it', async () => {
    const all = await mutantsOf('src/verify', '');
    expect(all.length).toBeGreaterThan(1000);
    expect(new Set(all.map((mutant) => placeOf(mutant, 1))).size).toBe(all.length);
  });
});

describe('the list of mutants', () => {
  it('knows where each lies: the text at its range is what is replaced', async () => {
    const all = await mutantsOf('src/color', 'hidden-stripe');
    expect(all.length).toBeGreaterThan(10);
    const lines = readFileSync('src/color/ribbon/hidden-stripe.ts', 'utf8').split('\n');
    for (const mutant of all.filter((m) => m.mutatorName === 'ArithmeticOperator')) {
      const [, file, row, from, last, to] = /^(.*):(\d+):(\d+)-(\d+):(\d+)$/.exec(rangeOf(mutant)) ?? [];
      expect(file).toBe('src/color/ribbon/hidden-stripe.ts');
      if (row !== last) continue;
      const text = lines[Number(row) - 1]!.slice(Number(from), Number(to));
      // The replacement differs from the text by its operator alone, but for spaces and parentheses.
      const bare = (code: string): string => code.replaceAll(/[\s()*/+-]/g, '');
      expect(bare(mutant.replacement)).toBe(bare(text));
    }
  });

  it('twin: a text that no path has gives none', async () => {
    expect(await mutantsOf('src/color', 'no-such-file')).toEqual([]);
  });
});
