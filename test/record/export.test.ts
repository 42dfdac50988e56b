import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/flow';
import { changesBetween, exportJob, importJob, migrate, nextEntry } from '../../src/record';
import { PHOTO_BYTES, sampleJob } from './sample-job';

const NOW = '2026-03-05T00:00:00Z';

async function exported(withPhotos = true): Promise<{ job: Job; text: string }> {
  const job = await sampleJob();
  const log = [await nextEntry(undefined, job, NOW, changesBetween(undefined, job))];
  const photos = withPhotos ? new Map([['p1', new Blob([PHOTO_BYTES], { type: 'image/jpeg' })]]) : new Map();
  return { job, text: JSON.stringify(await exportJob(job, log, photos, NOW)) };
}

async function kind(run: () => Promise<unknown>): Promise<string> {
  try {
    await run();
  } catch (error) {
    return (error as { kind?: string }).kind ?? String(error);
  }
  return 'no problem';
}

describe('export and import', () => {
  it('comes back without loss, photos to the byte', async () => {
    const { job, text } = await exported();
    const back = await importJob(text);
    expect(back.job).toEqual(JSON.parse(JSON.stringify(job)));
    expect(back.log).toHaveLength(1);
    expect(new Uint8Array(await (back.photos.get('p1') as Blob).arrayBuffer())).toEqual(PHOTO_BYTES);
    expect(back.photos.get('p1')?.type).toBe('image/jpeg');
  });

  it('comes back without photos when none were given', async () => {
    expect((await importJob((await exported(false)).text)).photos.size).toBe(0);
  });

  it('keeps fields of later versions', async () => {
    const job = { ...(await sampleJob()), later: { x: 1 } } as Job;
    const log = [await nextEntry(undefined, job, NOW, [])];
    const back = await importJob(JSON.stringify(await exportJob(job, log, new Map(), NOW)));
    expect(back.job).toEqual(JSON.parse(JSON.stringify(job)));
  });

  it.each([
    ['a reading', '277.1', '120.1'],
    ['a name', '"Tech One"', '"Tech Two"'],
    ['a color', '"best":"orange"', '"best":"brown"'],
    ['a photo byte', Buffer.from(PHOTO_BYTES).toString('base64').slice(0, 8), 'AAAAAAAA'],
  ])('shows %s changed by hand', async (_what, from, to) => {
    const { text } = await exported();
    expect(text).toContain(from);
    expect(await kind(() => importJob(text.replace(from, to)))).toBe('record changed');
  });

  it.each([
    ['not JSON', 'not JSON'],
    ['another JSON', '{"format":"other"}'],
    ['a list', '[]'],
    ['null', 'null'],
  ])('says that %s is no job', async (_what, text) => {
    expect(await kind(() => importJob(text))).toBe('import malformed');
  });

  it('says where a job is malformed even when its hashes fit', async () => {
    const job = { ...(await sampleJob()), demo: 'perhaps' } as unknown as Job;
    const log = [await nextEntry(undefined, job, NOW, [])];
    const text = JSON.stringify(await exportJob(job, log, new Map(), NOW));
    await expect(importJob(text)).rejects.toMatchObject({
      kind: 'import malformed',
      what: { values: { detail: 'record.import.at', place: ' (demo)' } },
    });
  });

  it('does not guess at a newer version', async () => {
    const { text } = await exported();
    expect(await kind(() => importJob(text.replace('"version":1', '"version":2')))).toBe('import malformed');
    await expect(async () => migrate({ ...(await sampleJob()), schema: 4 })).rejects.toMatchObject({
      what: { values: { detail: 'record.import.newer' } },
    });
  });

  it('takes a job of an older layout through its steps and says so in the log', async () => {
    const { title, ...rest } = await sampleJob();
    const old = { ...rest, schema: 0, name: title } as unknown as Job;
    const log = [await nextEntry(undefined, old, NOW, [])];
    const text = JSON.stringify(await exportJob(old, log, new Map(), NOW));
    const back = await importJob(text, { 0: ({ name, ...job }) => ({ ...job, title: name, schema: 3 }) });
    expect(back.job.title).toBe(title);
    expect(back.log.at(-1)?.changes.map((m) => m.code)).toEqual(['record.change.migrated']);
    expect(await kind(() => importJob(text))).toBe('import malformed');
  });
});
