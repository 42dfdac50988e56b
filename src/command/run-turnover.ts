import { createWriteStream, openAsBlob } from 'node:fs';
import { mkdir, open, readFile, rename, writeFile } from 'node:fs/promises';
import { basename, join, relative, resolve } from 'node:path';
import { Writable } from 'node:stream';
import { type JobPhoto, message, Problem, type ScheduleLine } from '../flow';
import {
  type ColumnMap,
  conductorHeading,
  conductorRows,
  deviationTable,
  loadArchive,
  loadReport,
  type ReportInput,
  readSchedule,
  readTable,
  suggestColumns,
  type TurnoverView,
  viewTurnover,
} from '../record';
import { say } from '../words';
import { assignPlaces } from './assign-places';

import { PartStore, photoId } from './part-store';
import { hashFile, listFolder } from './photo-folder';
import { progressBar } from './progress';
import type { Outlets } from './run-inspect';
import { asProblem, explain } from './say-problem';
import { parseTurnoverArguments, type TurnoverArguments } from './turnover-arguments';
import { type BulkJob, buildJob, startedAs } from './turnover-job';
import type { WorkerAnswer } from './turnover-worker';

/** Reads many photos; `done` is awaited before more results are made. */
export type ReadPhotos = (
  paths: readonly string[],
  jobs: number,
  done: (path: string, answer: WorkerAnswer) => Promise<void>,
) => Promise<void>;

export interface TurnoverHost extends Outlets {
  readonly read: ReadPhotos;
  readonly cores: number;
  readonly onTerminal: boolean;
  readonly now: () => number;
}

/** A photo of this run: where it lies, which bytes, and its place in the whole folder. */
interface Task {
  readonly path: string;
  readonly sha256: string;
  readonly index: number;
}

const PREFIX = 's';

async function readLines(args: TurnoverArguments, { err }: Outlets): Promise<readonly ScheduleLine[]> {
  if (args.schedule === null) return [];
  const text = await readFile(args.schedule, 'utf8').catch((error: unknown) => {
    const why = (error as { code?: string }).code ?? 'unknown';
    throw new Problem('bad argument', { detail: 'command.cannot-open', why }, error);
  });
  const table = readTable(text);
  const named = Object.entries(args.columns).map(([field, heading]) => {
    const at = table.heading.indexOf(heading);
    if (at < 0) throw new Problem('bad argument', { detail: 'command.bad.no-column', heading });
    return [field, at] as const;
  });
  const columns: ColumnMap = { ...suggestColumns(table.heading), ...Object.fromEntries(named) };
  const { lines, faults } = readSchedule(table, columns, PREFIX);
  for (const { row, message: what } of faults)
    err(`${say(message('command.turnover.fault', { row: row ?? 0, what: say(what) }))}\n`);
  return lines;
}

const fileSink = (path: string): WritableStream<Uint8Array<ArrayBuffer>> =>
  Writable.toWeb(createWriteStream(path)) as WritableStream<Uint8Array<ArrayBuffer>>;

/** Writes the report, its pictures read from disk one by one. */
async function writeReport(path: string, job: BulkJob, view: TurnoverView, tasks: readonly Task[], parts: PartStore) {
  const { makeReport } = await loadReport();
  const hashes = new Map(tasks.map(({ sha256 }) => [photoId(sha256), sha256]));
  const input: ReportInput = {
    title: job.slim.title,
    by: job.slim.by,
    demo: job.slim.demo,
    madeAt: new Date().toISOString(),
    view,
    log: job.log,
    photos: job.slim.photos.map((photo) => photo.id),
    same: job.slim.same ?? [],
    photo: async (id) => {
      const part = await parts.read(hashes.get(id) ?? '');
      if (!part) throw new Problem('save not verified');
      return part.photo;
    },
    picture: (id) => parts.picture(hashes.get(id) ?? ''),
    standings: new Map(),
    say: (what) => say(what),
    locale: 'en',
  };
  await makeReport(input, fileSink(`${path}.new`));
  await rename(`${path}.new`, path);
}

/** This run's photos, each bytes once: a second copy of a photo is told and left out. */
async function listTasks(args: TurnoverArguments, { err }: Outlets): Promise<Task[]> {
  const paths = (await listFolder(args.photos)).map((path, index) => ({ path, index }));
  const mine = paths.filter(({ index }) => index % args.parts === args.part - 1);
  const first = new Map<string, string>();
  const tasks: Task[] = [];
  for (const { path, index } of mine) {
    const sha256 = await hashFile(path);
    const before = first.get(sha256);
    if (before === undefined) tasks.push({ path, index, sha256 });
    else err(`${say(message('command.turnover.duplicate', { name: basename(path), first: basename(before) }))}\n`);
    first.set(sha256, before ?? path);
  }
  return tasks;
}

/** Reads what is not yet read; gives back the tasks whose photos could be read. */
async function readAll(args: TurnoverArguments, tasks: Task[], parts: PartStore, host: TurnoverHost): Promise<Task[]> {
  const readable = new Set<string>();
  for (const { sha256 } of tasks) if (await parts.read(sha256)) readable.add(sha256);
  const open = tasks.filter(({ sha256 }) => !readable.has(sha256));
  host.err(`${say(message('command.turnover.reading', { count: open.length, kept: readable.size }))}\n`);
  const byPath = new Map(open.map((task) => [task.path, task]));
  const show = progressBar(host.err, host.onTerminal, host.now);
  let done = 0;
  await host.read([...byPath.keys()], args.jobs, async (path, answer) => {
    const task = byPath.get(path) as Task;
    const name = relative(resolve(args.photos), resolve(path)).replaceAll('\\', '/');
    if (answer.kind === 'read') {
      await parts.write(task.sha256, name, answer);
      readable.add(task.sha256);
    } else host.err(`${say(message('command.turnover.failed', { name, problem: answer.problem }))}\n`);
    show(++done, open.length);
  });
  return tasks.filter(({ sha256 }) => readable.has(sha256));
}

const TYPES: Readonly<Record<string, string>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  avif: 'image/avif',
  gif: 'image/gif',
};

/** Writes the list of conductors, photo by photo. */
async function writeTable(path: string, job: BulkJob, tasks: readonly Task[], parts: PartStore): Promise<void> {
  const file = await open(`${path}.new`, 'w');
  try {
    await file.write(conductorHeading());
    for (const { sha256 } of tasks) {
      const part = await parts.read(sha256);
      if (part) await file.write(conductorRows(job.slim, part.photo));
    }
  } finally {
    await file.close();
  }
  await rename(`${path}.new`, path);
}

/** Writes the archive beside its name, proves it, and only then gives it its name. */
async function writeProved(path: string, job: BulkJob, tasks: readonly Task[], parts: PartStore): Promise<void> {
  const { openZip, verifyArchive, writeArchive } = await loadArchive();
  const byId = new Map(tasks.map((task) => [photoId(task.sha256), task]));
  const taskOf = (id: string): Task => byId.get(id) as Task;
  const photo = async (id: string): Promise<JobPhoto> => {
    const part = await parts.read(taskOf(id).sha256);
    if (!part) throw new Problem('save not verified');
    return part.photo;
  };
  const typeOf = new Map(job.slim.photos.map((p) => [p.id, TYPES[p.findings.photo.format] ?? '']));
  const bytes = (id: string): Promise<Blob> => openAsBlob(taskOf(id).path, { type: typeOf.get(id) ?? '' });
  await writeArchive(
    { shell: job.shell, log: job.log, photo, bytes },
    fileSink(`${path}.new`),
    new Date().toISOString(),
  );
  const zip = await openZip(await openAsBlob(`${path}.new`));
  const { faults } = await verifyArchive(zip);
  await zip.close();
  // A photo that was changed while we read it shows here.
  if (faults.length > 0) throw new Problem('save not verified');
  await rename(`${path}.new`, path);
}

async function turnover(args: TurnoverArguments, host: TurnoverHost): Promise<{ view: TurnoverView; failed: number }> {
  const lines = await readLines(args, host);
  const work = join(args.out, 'work');
  await mkdir(work, { recursive: true });
  const parts = await PartStore.open(join(work, 'photos'));
  const started = await startedAs(work);
  const tasks = await listTasks(args, host);
  const read = await readAll(args, tasks, parts, host);
  const toPlace = [];
  for (const { path, sha256, index } of read)
    toPlace.push({ id: photoId(sha256), path, index, tag: (await parts.read(sha256))?.tag ?? null });
  const said = { by: args.by, at: started.createdAt };
  const places = assignPlaces(toPlace, lines, args.inOrder, said);
  const named = { ...args, title: args.title || basename(resolve(args.photos)) };
  const job = await buildJob(
    named,
    started,
    read.map((t) => t.sha256),
    parts,
    lines,
    places,
  );
  const view = viewTurnover(job.slim);
  await writeProved(join(args.out, 'record.zip'), job, read, parts);
  if (args.report) await writeReport(join(args.out, 'report.pdf'), job, view, read, parts);
  await writeTable(join(args.out, 'conductors.csv'), job, read, parts);
  await writeFile(join(args.out, 'deviations.csv'), deviationTable(view));
  return { view, failed: tasks.length - read.length };
}

/** The turnover command. @returns the exit code: 0, 1 (a photo failed or nothing could be written), 2 (arguments). */
export async function runTurnover(argv: readonly string[], host: TurnoverHost): Promise<0 | 1 | 2> {
  try {
    const args = parseTurnoverArguments(argv, host.cores);
    if (args.help) {
      host.out(`${say(message('command.turnover.help'))}\n`);
      return 0;
    }
    const { view, failed } = await turnover(args, host);
    const { match, differs, missing } = view.counts;
    const values = { match, differs, missing, unsure: view.counts['cannot tell'] };
    const sums = { ...values, photos: view.photos, terminations: view.compared.length, out: args.out };
    host.out(`${say(message('command.turnover.done', sums))}\n${say(message('command.proof'))}\n`);
    return failed > 0 ? 1 : 0;
  } catch (error) {
    const problem = asProblem(error);
    host.err(`${explain(problem)}\n`);
    if (problem.kind === 'engine failed') host.err(`${String(problem.cause)}\n`);
    return problem.kind === 'bad argument' ? 2 : 1;
  }
}
