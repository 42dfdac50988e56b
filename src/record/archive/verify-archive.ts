import * as v from 'valibot';
import { type LogEntry, type Message, message, Problem } from '../../flow';
import { chainBreak } from '../chain';
import { hashBytes, hashValue } from '../hash';
import type { JobShell } from '../job-hash';
import { LogSchema } from '../schema';
import { ManifestSchema, ShellSchema } from './form';
import { JOB, LOG, MANIFEST, type Manifest, photoPath } from './layout';
import { damaged, type OpenZip } from './open-zip';

/** The parts of an archive that lie open when it was proved. */
export interface ArchiveParts {
  readonly manifest: Manifest;
  readonly shell: JobShell;
  readonly log: readonly LogEntry[];
}

export interface ArchiveCheck {
  /** What is not as it was written, in plain words; empty when everything agrees. */
  readonly faults: readonly Message[];
  /** Null when the parts cannot be read at all. */
  readonly parts: ArchiveParts | null;
  /** Files checked. */
  readonly files: number;
}

const fault = (code: string, values: Message['values']): Message => message(`record.archive.${code}`, values);

/** JSON of a known form; anything else is damage. */
export function readJson<T>(schema: v.GenericSchema<unknown, unknown>, bytes: Uint8Array, path: string): T {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    throw damaged('record.archive.not-json', path, error);
  }
  const result = v.safeParse(schema, value, { abortEarly: true });
  if (!result.success) throw damaged('record.archive.other-form', path);
  return value as T;
}

/**
 * Proves an archive and names everything that changed: every file against the manifest, every photo's findings
 * against the job, every photo's bytes against its findings, every entry of the log against the one before, and the
 * job against the end of the log. One file at a time stands in memory.
 * @throws Problem 'archive damaged' when the manifest itself cannot be read.
 */
export async function verifyArchive(
  zip: OpenZip,
  onFile: (done: number, of: number) => void = () => {},
): Promise<ArchiveCheck> {
  const manifest = readJson<Manifest>(ManifestSchema, await zip.read(MANIFEST), MANIFEST);
  const listed = new Map(manifest.files.map((file) => [file.path, file]));
  const present = new Set(zip.paths);
  const faults: Message[] = [];
  for (const path of listed.keys()) if (!present.has(path)) faults.push(fault('missing-file', { path }));
  for (const path of present) if (path !== MANIFEST && !listed.has(path)) faults.push(fault('extra-file', { path }));

  /** A file's bytes; null, with the fault noted, when they cannot be unpacked. */
  const proved = async (path: string): Promise<Uint8Array<ArrayBuffer> | null> => {
    if (!present.has(path)) return null;
    try {
      const bytes = await zip.read(path);
      const wanted = listed.get(path);
      if (wanted && (await hashBytes(bytes)) !== wanted.sha256) faults.push(fault('changed-file', { path }));
      return bytes;
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      faults.push(fault('unreadable-file', { path }));
      return null;
    }
  };
  const part = async <T>(schema: v.GenericSchema<unknown, unknown>, path: string): Promise<T | null> => {
    const bytes = await proved(path);
    if (!bytes) return null;
    try {
      return readJson<T>(schema, bytes, path);
    } catch {
      faults.push(fault('unreadable-file', { path }));
      return null;
    }
  };

  const shell = await part<JobShell>(ShellSchema, JOB);
  const log = await part<LogEntry[]>(LogSchema, LOG);
  let files = 3;
  for (const [k, photo] of (shell?.photos ?? []).entries()) {
    const path = photoPath(k, 'json');
    const findings = await part<{ id?: unknown; findings?: { photo?: { sha256?: unknown; name?: unknown } } }>(
      v.looseObject({}),
      path,
    );
    const facts = findings?.findings?.photo;
    const name = typeof facts?.name === 'string' ? facts.name : photo.id;
    if (findings && ((await hashValue(findings)) !== photo.hash || findings.id !== photo.id))
      faults.push(fault('findings-differ', { path, name }));
    const bytes = await proved(photoPath(k, 'bin'));
    if (bytes && facts && (await hashBytes(bytes)) !== facts.sha256)
      faults.push(fault('photo-differs', { path: photoPath(k, 'bin'), name }));
    files += bytes ? 2 : 1;
    onFile(k + 1, shell?.photos.length ?? 0);
  }
  if (log) {
    const broken = await chainBreak(log);
    if (broken) faults.push(fault('log-broken', { sequence: broken.kind === 'broken entry' ? broken.sequence : 0 }));
    if (shell && !broken && (await hashValue(shell)) !== log.at(-1)?.jobHash) faults.push(fault('job-differs', {}));
  }
  return { faults, files, parts: shell && log ? { manifest, shell, log } : null };
}
