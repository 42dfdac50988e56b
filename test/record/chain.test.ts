import { describe, expect, it } from 'vitest';
import type { Job, LogEntry } from '../../src/flow';
import { chainFault, changesBetween, nextEntry } from '../../src/record';
import { say } from '../../src/words';
import { reading, sampleJob } from './sample-job';

async function history(): Promise<{ job: Job; log: LogEntry[] }> {
  let job = await sampleJob();
  const log: LogEntry[] = [await nextEntry(undefined, job, '2026-03-04T05:00:00Z', changesBetween(undefined, job))];
  for (const title of ['one', 'two']) {
    const after = { ...job, title };
    log.push(await nextEntry(log.at(-1), after, '2026-03-04T06:00:00Z', changesBetween(job, after)));
    job = after;
  }
  return { job, log };
}

describe('chain of hashes', () => {
  it('passes an untouched history', async () => {
    const { job, log } = await history();
    expect(await chainFault(job, log)).toBeNull();
  });

  it.each([
    ['an entry edited', (log: LogEntry[]) => log.with(1, { ...(log[1] as LogEntry), by: 'Someone else' }), 1],
    ['an entry dropped', (log: LogEntry[]) => log.toSpliced(1, 1), 1],
    ['the first entry dropped', (log: LogEntry[]) => log.slice(1), 0],
    ['two entries swapped', (log: LogEntry[]) => [log[1], log[0], log[2]] as LogEntry[], 0],
    ['a time moved', (log: LogEntry[]) => log.with(2, { ...(log[2] as LogEntry), at: '2026-03-04T06:00:01Z' }), 2],
  ])('shows %s', async (_what, tamper, sequence) => {
    const { job, log } = await history();
    expect(await chainFault(job, tamper(log))).toEqual({ kind: 'broken entry', sequence });
  });

  it('shows a job that is not the one the log ends with, to the last digit', async () => {
    const { job, log } = await history();
    const photo = job.photos[0] as Job['photos'][number];
    const forged: Job = { ...job, photos: [{ ...photo, readings: [reading('r1', 277.2)] }] };
    expect(await chainFault(forged, log)).toEqual({ kind: 'job differs' });
    expect(await chainFault(job, log.slice(0, 2))).toEqual({ kind: 'job differs' });
    expect(await chainFault(job, [])).toEqual({ kind: 'empty log' });
  });
});

describe('what a save changed', () => {
  it('keeps the value of a reading that is taken back', async () => {
    const job = await sampleJob();
    const photo = job.photos[0] as Job['photos'][number];
    const [change, ...rest] = changesBetween(job, { ...job, photos: [{ ...photo, readings: [] }] });
    expect(rest).toEqual([]);
    expect(change).toMatchObject({
      code: 'record.change.reading-removed',
      values: { value: 277.1, from: 'c1', to: 'ground' },
    });
  });

  it('names every kind of change in a sentence without blanks, and nothing when nothing changed', async () => {
    const job = await sampleJob();
    const photo = job.photos[0] as Job['photos'][number];
    const after: Job = {
      ...job,
      title: 'New',
      by: 'Tech Two',
      site: { ...job.site, spaces: {} },
      acknowledgements: [],
      photos: [
        {
          ...photo,
          note: '',
          words: {},
          readings: [reading('r1', 'OL'), reading('r2')],
          findings: { ...photo.findings, elapsedMs: 1 },
        },
        { ...photo, id: 'p2' },
      ],
    };
    const codes = changesBetween(job, after).map((m) => m.code.replace('record.change.', ''));
    expect(codes).toEqual([
      'title',
      'by',
      'site',
      'acknowledged-removed',
      'reading-changed',
      'reading-added',
      'word-removed',
      'findings',
      'note',
      'photo-added',
      'reading-added',
    ]);
    const sentences = [...changesBetween(job, after), ...changesBetween(after, job)].map((m) => say(m));
    for (const sentence of sentences) expect(sentence).not.toMatch(/record\.|\{/);
    expect(changesBetween(job, structuredClone(job))).toEqual([]);
  });

  it('sees a change it has no word for', async () => {
    const job = await sampleJob();
    expect(changesBetween(job, { ...job, demo: false }).map((m) => m.code)).toEqual(['record.change.other']);
  });
});
