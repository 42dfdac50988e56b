import 'fake-indexeddb/auto';
import { Uint8ArrayReader, Uint8ArrayWriter, ZipReader, ZipWriter } from '@zip.js/zip.js';
import { beforeEach, describe, expect, it } from 'vitest';
import { EMPTY_TURNOVER, type Job, Problem } from '../../src/flow';
import { hashValue, type JobStore, loadArchive, openJobStore } from '../../src/record';
import { seeded } from '../hard/random';
import { PHOTO_BYTES, sampleJob } from './sample-job';

const { openZip, verifyArchive, readArchive } = await loadArchive();
const NOW = '2026-03-04T07:00:00.000Z';
let counter = 0;
let store: JobStore;
let job: Job;
let archive: Uint8Array<ArrayBuffer>;

const device = (): Promise<JobStore> => openJobStore({ name: `archive-${++counter}`, now: () => NOW });

beforeEach(async () => {
  store = await device();
  job = {
    ...(await sampleJob()),
    turnover: {
      ...EMPTY_TURNOVER,
      lines: [{ id: 's1-2', row: 2, cells: { panel: '../../LP1', space: '=1+1' }, other: { Notes: '<script>' } }],
    },
  };
  await store.keepPhoto(job.id, 'p1', new Blob([PHOTO_BYTES], { type: 'image/jpeg' }));
  await store.save({ ...job, photos: [] });
  await store.save(job);
  archive = new Uint8Array(await (await store.exportArchive(job)).arrayBuffer());
});

type Files = Map<string, Uint8Array<ArrayBuffer>>;

async function unpacked(): Promise<Files> {
  const files: Files = new Map();
  for (const entry of await new ZipReader(new Uint8ArrayReader(archive)).getEntries())
    if (!entry.directory)
      files.set(entry.filename, (await entry.getData(new Uint8ArrayWriter())) as Uint8Array<ArrayBuffer>);
  return files;
}

async function packed(files: Iterable<[string, Uint8Array<ArrayBuffer>]>): Promise<Blob> {
  const zip = new ZipWriter(new Uint8ArrayWriter());
  for (const [name, bytes] of files) await zip.add(name, new Uint8ArrayReader(bytes));
  return new Blob([(await zip.close()) as Uint8Array<ArrayBuffer>]);
}

async function faultsOf(blob: Blob): Promise<string[]> {
  const zip = await openZip(blob);
  return (await verifyArchive(zip)).faults.map((m) =>
    `${m.code.slice('record.archive.'.length)} ${m.values?.path ?? ''}`.trim(),
  );
}

const kindOf = (run: Promise<unknown>): Promise<string> =>
  run.then(
    () => 'no problem',
    (error: unknown) =>
      error instanceof Problem ? `${error.kind}: ${error.what.values?.detail ?? ''}` : String(error),
  );

const edit = (files: Files, path: string, change: (text: string) => string): void => {
  const text = new TextDecoder().decode(files.get(path));
  expect(change(text), `${path} is changed`).not.toBe(text);
  files.set(path, new TextEncoder().encode(change(text)));
};

describe('an archive', () => {
  it('takes a job to another device without loss: job, log, photo to the byte', async () => {
    const there = await device();
    const id = await there.importJson(new Blob([archive]));
    // JSON has no minus zero.
    expect(await there.open(id)).toEqual(JSON.parse(JSON.stringify(job)));
    expect(await there.log(id)).toEqual(await store.log(id));
    const photo = await there.photo(id, 'p1');
    expect(new Uint8Array(await (photo as Blob).arrayBuffer())).toEqual(PHOTO_BYTES);
    expect(photo?.type).toBe('image/jpeg');
    // And from there once more: the same bytes.
    expect(new Uint8Array(await (await there.exportArchive(job)).arrayBuffer())).toEqual(archive);
  });

  it('verifies as it was written, and names each thing that changed (twin)', async () => {
    expect(await faultsOf(new Blob([archive]))).toEqual([]);
    const changes: readonly [string, (files: Files) => void, readonly string[]][] = [
      [
        'photo bytes',
        (f) => f.get('photos/0001.bin')?.set([1], 3),
        ['changed-file photos/0001.bin', 'photo-differs photos/0001.bin'],
      ],
      [
        'a reading',
        (f) => edit(f, 'photos/0001.json', (s) => s.replace('277.1', '120.0')),
        ['changed-file photos/0001.json', 'findings-differ photos/0001.json'],
      ],
      [
        'the title',
        (f) => edit(f, 'job.json', (s) => s.replace('Invented', 'Other')),
        ['changed-file job.json', 'job-differs'],
      ],
      [
        'who did it',
        (f) => edit(f, 'log.json', (s) => s.replace('Tech One', 'Tech Two')),
        ['changed-file log.json', 'log-broken'],
      ],
      ['a photo gone', (f) => void f.delete('photos/0001.bin'), ['missing-file photos/0001.bin']],
      ['one more file', (f) => void f.set('photos/0002.bin', PHOTO_BYTES), ['extra-file photos/0002.bin']],
    ];
    for (const [what, change, expected] of changes) {
      const files = await unpacked();
      change(files);
      const blob = await packed(files);
      expect(await faultsOf(blob), what).toEqual(expected);
      expect(await kindOf(store.importJson(blob)), what).toBe('record changed: ');
    }
    expect(await store.list()).toHaveLength(1);
  });

  it('shows a change even when the manifest was made to fit it', async () => {
    const files = await unpacked();
    edit(files, 'photos/0001.json', (s) => s.replace('277.1', '120.0'));
    const { hashBytes } = await import('../../src/record/hash');
    const old = JSON.parse(new TextDecoder().decode(files.get('manifest.json'))) as {
      files: { path: string; sha256: string }[];
    };
    for (const file of old.files) file.sha256 = await hashBytes(files.get(file.path) as Uint8Array<ArrayBuffer>);
    files.set('manifest.json', new TextEncoder().encode(JSON.stringify(old)));
    expect(await faultsOf(await packed(files))).toEqual(['findings-differ photos/0001.json']);
  });

  it('cut off anywhere it is damaged, never half a job', async () => {
    const random = seeded(1);
    for (let n = 0; n < 100; n++) {
      const cut = new Blob([archive.slice(0, Math.floor(random() * archive.length))]);
      const there = await kindOf(openZip(cut).then(verifyArchive));
      expect(there, `cut ${n}`).toMatch(/^archive damaged/);
    }
    expect(await kindOf(store.importJson(new Blob([archive.slice(0, 400)])))).toMatch(/^archive damaged/);
  });

  it('one bit turned anywhere is named, refused, or changes nothing that is read', async () => {
    const random = seeded(2);
    const whole = await hashValue((await readArchive(new Blob([archive]))).job);
    const count = { refused: 0, named: 0, harmless: 0 };
    for (let n = 0; n < 300; n++) {
      const bytes = archive.slice();
      const at = Math.floor(random() * bytes.length);
      bytes[at] = (bytes[at] as number) ^ (1 << Math.floor(random() * 8));
      const answer = await openZip(new Blob([bytes]))
        .then(verifyArchive)
        .catch((error: unknown) => error);
      if (answer instanceof Problem) count.refused += 1;
      else if (answer instanceof Error) throw answer;
      else if ((answer as { faults: unknown[] }).faults.length > 0) count.named += 1;
      else {
        const again = await readArchive(new Blob([bytes]));
        expect(await hashValue(again.job), `bit at ${at}`).toBe(whole);
        expect(new Uint8Array(await (await again.bytes('p1')).arrayBuffer())).toEqual(PHOTO_BYTES);
        count.harmless += 1;
      }
    }
    expect(count.refused + count.named).toBeGreaterThan(200);
  });

  it('refuses names that lead out of it, and any that no archive has', async () => {
    for (const name of [
      '../../etc/passwd',
      '/etc/passwd',
      'photos/../../x.bin',
      'C:\\x',
      'photos/0001.exe',
      'x/',
      'con.json',
    ]) {
      const blob = await packed([...(await unpacked()), [name, PHOTO_BYTES]]);
      expect(await kindOf(store.importJson(blob)), name).toMatch(/^archive damaged/);
    }
  });

  it('refuses a file that unpacks to more than it may, before unpacking it, and one that lies about its size', async () => {
    const bomb = await packed([['job.json', new Uint8Array(65 * 2 ** 20)]]);
    expect(bomb.size).toBeLessThan(2 ** 17);
    expect(await kindOf(store.importJson(bomb))).toBe('archive too large: record.archive.large-file');
    // The same, its sizes in the table of contents and the local header made to look small (APPNOTE 4.3.7, 4.3.12).
    const bytes = new Uint8Array(await bomb.arrayBuffer());
    const view = new DataView(bytes.buffer);
    for (let at = 0; at + 30 < bytes.length; at++) {
      const mark = view.getUint32(at, true);
      if (mark === 0x04034b50) view.setUint32(at + 22, 1000, true);
      if (mark === 0x02014b50) view.setUint32(at + 24, 1000, true);
      if (mark === 0x08074b50) view.setUint32(at + 12, 1000, true);
    }
    expect(await kindOf(store.importJson(new Blob([bytes])))).toMatch(/^archive (?:damaged|too large)/);
  });

  it('is neither an empty zip nor another one', async () => {
    expect(await kindOf(store.importJson(await packed([])))).toMatch(/^archive damaged: record.archive.absent/);
    expect(await kindOf(store.importJson(await packed([['manifest.json', new TextEncoder().encode('{}')]])))).toBe(
      'archive damaged: record.archive.other-form',
    );
  });
});
