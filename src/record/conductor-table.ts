import {
  type ConductorVerdict,
  IEC_60757,
  type Job,
  type JobPhoto,
  type NamedConductor,
  type TestPoint,
} from '../flow';
import { say } from '../words';
import { csvText } from './csv';

const COLUMNS = [
  'job',
  'photo',
  'sha256',
  'conductor',
  'covering',
  'color',
  'code',
  'confidence',
  'set',
  'stripe',
  'tape',
  'word',
  'word-by',
  'system',
  'role',
  'role-probability',
  'standing',
  'readings',
  'demo',
] as const;

const hundredth = (share: number): number => Math.round(share * 100) / 100;

const touches = (point: TestPoint, conductor: string): boolean =>
  point.kind === 'conductor' && point.conductor === conductor;

function readingsOf(photo: JobPhoto, conductor: string): string {
  const replaced = new Set(photo.readings.map((r) => r.supersedes));
  const name = (p: TestPoint): string => (p.kind === 'conductor' ? p.conductor : p.kind === 'pole' ? p.role : p.kind);
  return photo.readings
    .filter((r) => !replaced.has(r.id) && !r.takenBack && (touches(r.from, conductor) || touches(r.to, conductor)))
    .map((r) => `${r.function} ${name(r.from)} to ${name(r.to)} ${r.value} (${r.by} ${r.at})`)
    .join('; ');
}

function row(
  job: Pick<Job, 'title' | 'demo'>,
  photo: JobPhoto,
  c: NamedConductor,
  standing: string,
): (string | number)[] {
  const best = photo.findings.map.assignments.find((a) => a.conductor === c.id)?.roles[0];
  const bare = c.covering === 'bare';
  const word = photo.words[c.id] ?? c.userWord;
  return [
    job.title,
    photo.findings.photo.name,
    photo.findings.photo.sha256,
    c.id,
    c.covering,
    bare ? '' : c.insulation.best,
    bare ? '' : IEC_60757[c.insulation.best],
    bare ? '' : hundredth(c.insulation.confidence),
    bare ? '' : c.insulation.set.join(' / '),
    c.stripe?.name ?? '',
    c.tape.map((t) => t.name).join(' / '),
    word?.name ?? '',
    word?.by ?? '',
    best?.system ?? '',
    best?.role ?? '',
    best ? hundredth(best.probability) : '',
    standing,
    readingsOf(photo, c.id),
    job.demo ? 'yes' : '',
  ];
}

/** Standing of conductors by photo id, as the verify room judged them. */
export type Standings = ReadonlyMap<string, readonly ConductorVerdict[]>;

/**
 * The conductors of a job as CSV (RFC 4180, UTF-8 without mark), one row each, header first. What color says and
 * what the meter says stand in columns of their own; a conductor whose standing is not given has that cell empty.
 */
export const conductorTable = (job: Job, standings: Standings = new Map()): string =>
  [conductorHeading(), ...job.photos.map((photo) => conductorRows(job, photo, standings))].join('');

/** The first row of the table. */
export const conductorHeading = (): string => csvText([COLUMNS.map((column) => say({ code: `record.csv.${column}` }))]);

/** The rows of one photo. */
export const conductorRows = (
  job: Pick<Job, 'title' | 'demo'>,
  photo: JobPhoto,
  standings: Standings = new Map(),
): string =>
  csvText(
    photo.findings.conductors.map((c) =>
      row(job, photo, c, standings.get(photo.id)?.find((s) => s.conductor === c.id)?.standing ?? ''),
    ),
  );
