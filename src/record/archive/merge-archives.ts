import {
  EMPTY_TURNOVER,
  type Job,
  type JobPhoto,
  message,
  type SameConductor,
  type TerminationEntry,
  type Turnover,
} from '../../flow';
import { nextEntry } from '../chain';
import { shellOf } from '../job-hash';
import { same } from '../same';
import { type ArchiveSource, sourceOf } from './layout';
import type { ReadArchive } from './read-archive';

/** What a merged archive is made of. */
export interface Merged {
  readonly source: ArchiveSource;
  readonly photos: number;
}

/**
 * One record of several parts, such as the runs of an array job. Equal photos, lines and places are kept once; a
 * photo or line whose id means two things gets the number of its part in front. Every part's log goes into the
 * first entry of the new log, headed by the hash it ended with.
 * @param id of the new job.
 */
export async function mergeArchives(parts: readonly ReadArchive[], id: string, now: string): Promise<Merged> {
  const [first] = parts;
  if (!first) throw new RangeError('nothing to merge');
  const photos = new Map<string, JobPhoto>();
  const owner = new Map<string, { readonly archive: ReadArchive; readonly id: string }>();
  let turnover: Turnover = EMPTY_TURNOVER;
  let said: readonly SameConductor[] = [];
  for (const [k, archive] of parts.entries()) {
    const renamed = renamings(archive.job, photos, turnover, k + 1);
    for (const photo of archive.job.photos) {
      const name = renamed(photo.id);
      if (!photos.has(name)) photos.set(name, name === photo.id ? photo : { ...photo, id: name });
      if (archive.withBytes.includes(photo.id) && !owner.has(name)) owner.set(name, { archive, id: photo.id });
    }
    said = distinct([...said, ...(archive.job.same ?? []).map((one) => renamedSame(one, renamed))]);
    turnover = united(turnover, archive.job.turnover ?? EMPTY_TURNOVER, renamed);
  }
  const job: Job = { ...first.job, id, photos: [...photos.values()], turnover, ...(said.length > 0 && { same: said }) };
  const shell = await shellOf(job);
  const changes = parts.flatMap(({ job: { title }, log }) => [
    message('record.change.merged', { title, entries: log.length, head: log.at(-1)?.hash ?? '' }),
    ...log.flatMap((entry) => entry.changes),
  ]);
  const log = [await nextEntry(undefined, job, now, changes)];
  const bytes = async (photo: string): Promise<Blob | null> => {
    const from = owner.get(photo);
    return from ? await from.archive.bytes(from.id) : null;
  };
  return { source: sourceOf(job, shell, log, bytes), photos: photos.size };
}

/** New names for the ids of a part that already mean something else. */
function renamings(
  job: Job,
  photos: ReadonlyMap<string, JobPhoto>,
  so: Turnover,
  part: number,
): (id: string) => string {
  const clash = new Set<string>();
  for (const photo of job.photos) {
    const there = photos.get(photo.id);
    if (there && !same(there, photo)) clash.add(photo.id);
  }
  const lines = new Map(so.lines.map((line) => [line.id, line]));
  for (const line of job.turnover?.lines ?? []) {
    const there = lines.get(line.id);
    if (there && !same(there, line)) clash.add(line.id);
  }
  // A termination's or deviation's id begins with its line's or photo's.
  return (id) => {
    const [head = '', ...rest] = id.split(':');
    return clash.has(head) ? [`${part}.${head}`, ...rest].join(':') : id;
  };
}

const distinct = <T>(items: readonly T[]): T[] =>
  items.filter((item, k) => items.findIndex((other) => same(other, item)) === k);

const renamedSame = (one: SameConductor, renamed: (id: string) => string): SameConductor => ({
  ...one,
  sightings: one.sightings.map((s) => ({ ...s, photo: renamed(s.photo) })),
});

function entryOf(a: TerminationEntry | undefined, b: TerminationEntry): TerminationEntry {
  const later = <T extends { readonly at: string }>(x: T | undefined, y: T | undefined): T | undefined =>
    x && y ? (x.at >= y.at ? x : y) : (x ?? y);
  const out: Record<string, unknown> = { ...a, ...b };
  for (const field of ['torque', 'witness', 'strip', 'tape'] as const) {
    const value = later(a?.[field], b[field]);
    if (value) out[field] = value;
  }
  const sightings = distinct([...(a?.sightings ?? []), ...(b.sightings ?? [])]);
  return sightings.length > 0
    ? { ...out, sightings: sightings.sort((x, y) => x.at.localeCompare(y.at)) }
    : (out as TerminationEntry);
}

function united(a: Turnover, b: Turnover, renamed: (id: string) => string): Turnover {
  const known = new Set(a.lines.map((line) => line.id));
  const entries: Record<string, TerminationEntry> = { ...a.entries };
  for (const [id, entry] of Object.entries(b.entries)) {
    const sightings = entry.sightings?.map((s) => ({ ...s, photo: renamed(s.photo) }));
    entries[renamed(id)] = entryOf(entries[renamed(id)], sightings ? { ...entry, sightings } : entry);
  }
  const handled = { ...a.handled };
  for (const [id, h] of Object.entries(b.handled)) {
    const mine = handled[renamed(id)];
    const closed = h.closed && { ...h.closed, photo: renamed(h.closed.photo) };
    const theirs = closed ? { ...h, closed } : h;
    handled[renamed(id)] = { ...mine, ...theirs, comments: distinct([...(mine?.comments ?? []), ...h.comments]) };
  }
  return {
    lines: [
      ...a.lines,
      ...b.lines.map((line) => ({ ...line, id: renamed(line.id) })).filter((line) => !known.has(line.id)),
    ],
    places: distinct([
      ...a.places,
      ...b.places.map((p) => ({
        ...p,
        photo: renamed(p.photo),
        ...(p.termination === undefined ? {} : { termination: renamed(p.termination) }),
      })),
    ]),
    entries,
    handled,
    signatures: distinct([...a.signatures, ...b.signatures]),
  };
}
