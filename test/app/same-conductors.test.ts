import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/app/state/edit';
import { jobReducer } from '../../src/app/state/reducer';
import { sameAs } from '../../src/app/state/same-conductors';
import type { Job, NamedConductor } from '../../src/flow';
import { changesBetween, migrate } from '../../src/record';
import { job, photo, upright } from './fixtures/findings';

const AT = '2026-11-25T13:00:00.000Z';

/** A conductor that may be one of two. Probabilities are made up. */
const unsure = (id: string, x: number, brown: number): NamedConductor => {
  const c = upright(id, x, brown >= 0.5 ? 'brown' : 'red');
  const candidates = [
    { name: 'brown', probability: brown },
    { name: 'red', probability: 1 - brown },
  ] as const;
  return { ...c, insulation: { ...c.insulation, candidates, set: ['brown', 'red'] } };
};

const start = job([
  photo('p', [unsure('a', 100, 0.7), upright('b', 200, 'blue')]),
  photo('q', [unsure('a', 100, 0.7), upright('b', 200, 'blue')]),
  photo('r', [unsure('a', 100, 0.6)]),
]);

const edited = (from: Job, ...edits: readonly Edit[]): Job => {
  const open = jobReducer(null, { type: 'open', job: from });
  return edits.reduce((state, edit) => jobReducer(state, { type: 'edit', edit, at: AT }), open)!.present;
};
const say = (of: string, on: string): Edit => {
  const [photo = '', conductor = ''] = of.split('/');
  const [other = '', there = ''] = on.split('/');
  return {
    type: 'same conductor',
    of: { photo, conductor },
    on: { photo: other, conductor: there || null },
    by: 'Invented Tester',
  };
};
const seen = (j: Job): string[][] => (j.same ?? []).map((one) => one.sightings.map((s) => `${s.photo}/${s.conductor}`));

describe('one conductor on several photos', () => {
  test('is kept with who said it, when, and what the photos say together: surer than each of them', () => {
    const said = edited(start, say('p/a', 'q/a'));
    expect(seen(said)).toEqual([['p/a', 'q/a']]);
    const one = said.same![0]!;
    expect(one).toMatchObject({ by: 'Invented Tester', at: AT });
    expect(one.together.best).toBe('brown');
    expect(one.together.confidence).toBeGreaterThan(0.7);
    expect(one.together.contradicting).toBe(false);
    expect(() => migrate(said)).not.toThrow();
  });

  test('twin: a blue one said to be the same contradicts, and is not surer', () => {
    const { together } = edited(start, say('p/a', 'q/b')).same![0]!;
    expect(together.contradicting).toBe(true);
    expect(together.confidence).toBeLessThan(0.7);
  });

  test('what is the same as one is the same as all of them', () => {
    expect(seen(edited(start, say('p/a', 'q/a'), say('q/a', 'r/a')))).toEqual([['p/a', 'q/a', 'r/a']]);
    expect(seen(edited(start, say('p/a', 'q/a'), say('r/a', 'q/a')))).toEqual([['r/a', 'q/a', 'p/a']]);
  });

  test('is another on a photo than before, or not there: the rest stays as long as two are left', () => {
    const all = edited(start, say('p/a', 'q/a'), say('p/a', 'r/a'));
    expect(seen(edited(all, say('p/a', 'q/b')))).toEqual([['p/a', 'r/a', 'q/b']]);
    expect(seen(edited(all, say('p/a', 'q')))).toEqual([['p/a', 'r/a']]);
    expect(seen(edited(all, say('p/a', 'q'), say('p/a', 'r')))).toEqual([]);
    expect(sameAs(all, { photo: 'q', conductor: 'b' })).toBeUndefined();
  });

  test('follows the readings: read again, discarded, its photo removed; undo brings it back', () => {
    const all = edited(start, say('p/a', 'q/a'), say('p/a', 'r/a'));
    const reread = edited(all, { type: 'reread', photo: 'q', references: [], conductors: [unsure('a', 100, 0.2)] });
    expect(reread.same![0]!.together.confidence).not.toBe(all.same![0]!.together.confidence);
    expect(seen(edited(all, { type: 'conductors', photo: 'q', removed: ['a'], added: [] }))).toEqual([['p/a', 'r/a']]);
    const gone = edited(all, { type: 'remove photo', photo: 'p' }, { type: 'remove photo', photo: 'q' });
    expect(seen(gone)).toEqual([]);
    let state = jobReducer(null, { type: 'open', job: all });
    state = jobReducer(state, { type: 'edit', edit: { type: 'remove photo', photo: 'q' }, at: AT });
    expect(seen(jobReducer(state, { type: 'undo' })!.present)).toEqual(seen(all));
  });

  test('the log says who said what, and what is taken back', () => {
    const said = edited(start, say('p/a', 'q/a'));
    const [added] = changesBetween(start, said);
    expect(added).toMatchObject({
      code: 'record.change.same-added',
      values: { seen: 'a (invented.jpg), a (invented.jpg)', set: 'brown / red', by: 'Invented Tester', at: AT },
    });
    const [removed] = changesBetween(said, edited(said, say('p/a', 'q')));
    expect(removed?.code).toBe('record.change.same-removed');
  });

  test('twin: a record that shows one conductor on one photo, or twice on one, is refused', () => {
    const said = edited(start, say('p/a', 'q/a'));
    const broken = (sightings: readonly { photo: string; conductor: string }[]) => ({
      ...said,
      same: [{ ...said.same![0]!, sightings }],
    });
    expect(() => migrate(broken([{ photo: 'p', conductor: 'a' }]))).toThrow();
    const twice = ['a', 'b'].map((conductor) => ({ photo: 'p', conductor }));
    expect(() => migrate(broken(twice))).toThrow();
  });
});

describe('a comparison of two conductors that was kept', () => {
  const kept = (log10Ratio: number, pair: readonly [string, string] = ['a', 'b']): Edit => ({
    type: 'compared',
    photo: 'p',
    comparison: { conductors: pair, log10Ratio, by: 'Invented Tester', at: AT },
  });

  test('stands in the job and its log; a later answer about the same two takes its place', () => {
    const first = edited(start, kept(-2));
    expect(first.photos[0]!.comparisons).toMatchObject([{ conductors: ['a', 'b'], log10Ratio: -2 }]);
    expect(changesBetween(start, first)[0]).toMatchObject({
      code: 'record.change.compared-added',
      values: { first: 'a', second: 'b', ratio: -2, by: 'Invented Tester', at: AT },
    });
    expect(() => migrate(first)).not.toThrow();
    expect(edited(first, kept(1, ['b', 'a'])).photos[0]!.comparisons).toMatchObject([{ log10Ratio: 1 }]);
  });

  test('goes when one of the two is read again, for it holds no longer; a note leaves it (twin)', () => {
    const first = edited(start, kept(-2));
    const reread: Edit = { type: 'conductors', photo: 'p', removed: ['b'], added: [upright('b', 200, 'red')] };
    expect(edited(first, reread).photos[0]!.comparisons).toEqual([]);
    expect(edited(first, { type: 'note', photo: 'p', note: 'x' }).photos[0]!.comparisons).toHaveLength(1);
  });
});
