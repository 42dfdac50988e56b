import { randomUUID } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Job, JobPhoto, LogEntry, PhotoPlace, ScheduleLine } from '../flow';
import { EMPTY_TURNOVER, message } from '../flow';
import { hashValue, type JobShell, nextEntry } from '../record';
import type { PartStore } from './part-store';
import type { TurnoverArguments } from './turnover-arguments';

/** Id and time of a turnover, the same in each run that goes on with it. */
interface Started {
  readonly id: string;
  readonly createdAt: string;
}

export async function startedAs(folder: string): Promise<Started> {
  const path = join(folder, 'started.json');
  try {
    return JSON.parse(await readFile(path, 'utf8')) as Started;
  } catch {
    // First run, or one that was stopped before it wrote anything of use.
    const started: Started = { id: randomUUID(), createdAt: new Date().toISOString() };
    await writeFile(path, JSON.stringify(started));
    return started;
  }
}

/** A turnover whose photos stay on disk. */
export interface BulkJob {
  /** The job with photos that lack their outlines: enough to compare and to list. */
  readonly slim: Job;
  readonly shell: JobShell;
  readonly log: readonly LogEntry[];
}

const withoutTraces = (photo: JobPhoto): JobPhoto => ({
  ...photo,
  findings: {
    ...photo.findings,
    conductors: photo.findings.conductors.map((c) => ({ ...c, outlines: [], centerline: [], crossings: [] })),
  },
});

/** Puts the job together, one photo at a time. `photos` are SHA-256 hashes of photos whose parts are kept. */
export async function buildJob(
  args: Pick<TurnoverArguments, 'title' | 'by'>,
  started: Started,
  photos: readonly string[],
  parts: PartStore,
  lines: readonly ScheduleLine[],
  places: readonly PhotoPlace[],
): Promise<BulkJob> {
  const slim: JobPhoto[] = [];
  const hashes: { id: string; hash: string }[] = [];
  for (const sha256 of photos) {
    const part = await parts.read(sha256);
    if (!part) throw new RangeError(`no part ${sha256}`);
    slim.push(withoutTraces(part.photo));
    hashes.push({ id: part.photo.id, hash: await hashValue(part.photo) });
  }
  const base: Omit<Job, 'photos'> = {
    id: started.id,
    schema: 2,
    title: args.title,
    createdAt: started.createdAt,
    by: args.by,
    site: { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} },
    acknowledgements: [],
    demo: false,
    turnover: { ...EMPTY_TURNOVER, lines, places },
  };
  const shell: JobShell = { ...base, photos: hashes };
  const changes = [
    message('record.change.created', { title: args.title }),
    message('record.change.lines-added', { count: lines.length }),
    ...slim.map(({ findings: { photo } }) =>
      message('record.change.photo-added', { photo: photo.name, sha256: photo.sha256 }),
    ),
  ];
  const log = [await nextEntry(undefined, { by: args.by, hash: await hashValue(shell) }, started.createdAt, changes)];
  return { slim: { ...base, photos: slim }, shell, log };
}
