import { randomUUID } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Job, JobPhoto, LogEntry, PhotoPlace, Said, ScheduleLine, Termination, TerminationEntry } from '../flow';
import { EMPTY_TURNOVER, message } from '../flow';
import {
  hashValue,
  type JobShell,
  nextEntry,
  pairInOrder,
  sightingOf,
  terminationsAt,
  terminationsOf,
} from '../record';
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
  /** The job with no more of its photos than the comparison looks at. */
  readonly slim: Job;
  readonly shell: JobShell;
  readonly log: readonly LogEntry[];
}

/** What the comparison looks at: colors, stripes, tape, the verdict on the photo, and rules broken. */
const compared = (photo: JobPhoto): JobPhoto => ({
  ...photo,
  findings: {
    ...photo.findings,
    capture: { ...photo.findings.capture, reasons: [] },
    conductors: photo.findings.conductors.map((c) => ({
      ...c,
      outlines: [],
      centerline: [],
      crossings: [],
      insulation: { ...c.insulation, candidates: [], doubts: [] },
    })),
    references: [],
    map: {
      systems: [],
      assignments: [],
      eliminated: [],
      findings: photo.findings.map.findings.filter((f) => f.severity !== 'note'),
    },
    stages: {},
  },
});

/** Conductors by their order, where the schedule asks for as many as the photo shows. */
function pairsOf(
  photo: JobPhoto,
  places: readonly PhotoPlace[],
  terminations: readonly Termination[],
  said: Said,
): [string, TerminationEntry][] {
  const place = places.find((p) => p.photo === photo.id);
  if (!place) return [];
  const here = terminationsAt(place, terminations);
  const { conductors } = photo.findings;
  if (here.length === 0 || here.length !== conductors.length) return [];
  return Object.entries(pairInOrder(here, conductors)).map(([id, conductor]) => [
    id,
    { sightings: [sightingOf(photo.id, conductor, false, said)] },
  ]);
}

/** Puts the job together, one photo at a time. `photos` are SHA-256 hashes of photos whose parts are kept. */
export async function buildJob(
  args: Pick<TurnoverArguments, 'title' | 'by' | 'pair'>,
  started: Started,
  photos: readonly string[],
  parts: PartStore,
  lines: readonly ScheduleLine[],
  places: readonly PhotoPlace[],
): Promise<BulkJob> {
  const slim: JobPhoto[] = [];
  const hashes: { id: string; hash: string }[] = [];
  const entries: [string, TerminationEntry][] = [];
  const terminations = args.pair ? terminationsOf(lines) : [];
  const said = { by: args.by, at: started.createdAt };
  for (const sha256 of photos) {
    const part = await parts.read(sha256);
    if (!part) throw new RangeError(`no part ${sha256}`);
    slim.push(compared(part.photo));
    if (args.pair) entries.push(...pairsOf(part.photo, places, terminations, said));
    hashes.push({ id: part.photo.id, hash: await hashValue(part.photo) });
  }
  const base: Omit<Job, 'photos'> = {
    id: started.id,
    schema: 3,
    title: args.title,
    createdAt: started.createdAt,
    by: args.by,
    site: { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} },
    acknowledgements: [],
    demo: false,
    turnover: { ...EMPTY_TURNOVER, lines, places, entries: Object.fromEntries(entries) },
  };
  const shell: JobShell = { ...base, photos: hashes };
  const changes = [
    message('record.change.created', { title: args.title }),
    message('record.change.lines-added', { count: lines.length }),
    ...(entries.length > 0 ? [message('record.change.paired', { count: entries.length })] : []),
    ...slim.map(({ findings: { photo } }) =>
      message('record.change.photo-added', { photo: photo.name, sha256: photo.sha256 }),
    ),
  ];
  const log = [await nextEntry(undefined, { by: args.by, hash: await hashValue(shell) }, started.createdAt, changes)];
  return { slim: { ...base, photos: slim }, shell, log };
}
