import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/app/state/edit';
import { meterOptions } from '../../src/app/state/meter-options';
import { type JobState, jobReducer } from '../../src/app/state/reducer';
import type { Job, Reading } from '../../src/flow';
import { job, photo, upright } from './fixtures/findings';

const AT = '2026-11-25T13:00:00.000Z';

const open = (): JobState =>
  jobReducer(null, {
    type: 'open',
    job: job([photo('p', [upright('a', 100), upright('b', 200, 'red'), upright('c', 300)])]),
  });
const edited = (state: JobState, ...edits: readonly Edit[]): JobState =>
  edits.reduce((s, edit) => jobReducer(s, { type: 'edit', edit, at: AT }), state);
const ids = (state: JobState): string[] => state!.present.photos[0]!.findings.conductors.map((c) => c.id);
const present = (state: JobState): Job => state!.present;

const reading: Reading = {
  id: 'r1',
  from: { kind: 'conductor', conductor: 'a' },
  to: { kind: 'ground' },
  function: 'AC volts',
  value: 120,
  at: '2026-11-25T12:01:00.000Z',
  by: 'Invented Tester',
};

describe('job reducer', () => {
  test('discarding takes out one conductor and its word; undo brings both back', () => {
    const word = { name: 'blue', by: 'x', at: '2026-11-25T12:00:00.000Z' } as const;
    const before = edited(open(), { type: 'word', photo: 'p', conductor: 'b', word });
    const after = edited(before, { type: 'conductors', photo: 'p', removed: ['b'], added: [] });
    expect(ids(after)).toEqual(['a', 'c']);
    expect(present(after).photos[0]!.words).toEqual({});
    const undone = jobReducer(after, { type: 'undo' });
    expect(ids(undone)).toEqual(['a', 'b', 'c']);
    expect(present(undone).photos[0]!.words).toEqual({ b: word });
  });

  test('parts of a split stand where the whole stood', () => {
    const added = [upright('b1', 200), upright('b2', 210)];
    expect(ids(edited(open(), { type: 'conductors', photo: 'p', removed: ['b'], added }))).toEqual([
      'a',
      'b1',
      'b2',
      'c',
    ]);
  });

  test('a joined pair stands where the first of it stood', () => {
    const added = [upright('a+c', 100)];
    expect(ids(edited(open(), { type: 'conductors', photo: 'p', removed: ['c', 'a'], added }))).toEqual(['a+c', 'b']);
  });

  test('a traced conductor goes to the end', () => {
    const added = [upright('d', 400)];
    expect(ids(edited(open(), { type: 'conductors', photo: 'p', removed: [], added }))).toEqual(['a', 'b', 'c', 'd']);
  });

  test('readings outlive the conductor they were taken on', () => {
    const after = edited(
      open(),
      { type: 'reading', photo: 'p', reading },
      { type: 'conductors', photo: 'p', removed: ['a'], added: [] },
    );
    expect(present(after).photos[0]!.readings).toEqual([reading]);
  });

  test('what is retraced, reread or renamed by hand is marked with the time; a note or a reading marks nothing', () => {
    const edits = (...all: readonly Edit[]) =>
      meterOptions(present(edited(open(), ...all)), present(edited(open(), ...all)).photos[0]!).edited;
    const { conductors } = present(open()).photos[0]!.findings;
    expect(edits({ type: 'conductors', photo: 'p', removed: ['a'], added: [upright('a', 101)] })).toEqual({ a: AT });
    expect(edits({ type: 'reread', photo: 'p', references: [], conductors })).toEqual({ a: AT, b: AT, c: AT });
    expect(edits({ type: 'word', photo: 'p', conductor: 'b', word: null })).toEqual({ b: AT });
    expect(edits({ type: 'note', photo: 'p', note: 'x' }, { type: 'reading', photo: 'p', reading })).toEqual({});
  });

  test('a map enters without a step of undo, unless what it was inferred from has changed', () => {
    const state = open();
    const { conductors } = present(state).photos[0]!.findings;
    const map = { systems: [], assignments: [], eliminated: [], findings: [] };
    const { words } = present(state).photos[0]!;
    const mapped = { photo: 'p', conductors, words, site: present(state).site, map };
    const after = jobReducer(state, { type: 'mapped', mapped });
    expect(present(after).photos[0]!.findings.map).toBe(map);
    expect(after!.past).toEqual([]);
    const changed = edited(state, { type: 'conductors', photo: 'p', removed: ['a'], added: [] });
    const late = jobReducer(changed, { type: 'mapped', mapped });
    expect(present(late).photos[0]!.findings.map).not.toBe(map);
  });

  test('acknowledging twice keeps the newer word only; withdrawing takes it out', () => {
    const say = (by: string): Edit => ({ type: 'acknowledge', acknowledgement: { step: 's', by, at: 'now' } });
    const twice = edited(open(), say('x'), say('y'));
    expect(present(twice).acknowledgements).toEqual([{ step: 's', by: 'y', at: 'now' }]);
    expect(present(edited(twice, { type: 'withdraw', step: 's' })).acknowledgements).toEqual([]);
  });

  test('an unchanged title is no step of undo', () => {
    const before = open();
    expect(edited(before, { type: 'title', title: 'Invented job' })).toBe(before);
  });

  test('without an open job edits are ignored', () => {
    expect(jobReducer(null, { type: 'edit', edit: { type: 'title', title: 'x' }, at: AT })).toBeNull();
  });
});
