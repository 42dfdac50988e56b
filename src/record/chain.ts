import type { Job, LogEntry, Message } from '../flow';
import { hashValue } from './hash';
import { hashJob } from './job-hash';

const NO_PREVIOUS = '0'.repeat(64);

/** A job by what the log needs of it, for jobs that are too large to stand in memory. */
export interface HashedJob {
  readonly by: string;
  /** Hash of its shell. */
  readonly hash: string;
}

/** The entry that follows `last` (undefined for a new log). */
export async function nextEntry(
  last: LogEntry | undefined,
  job: Job | HashedJob,
  at: string,
  changes: readonly Message[],
): Promise<LogEntry> {
  const body = {
    sequence: last ? last.sequence + 1 : 0,
    at,
    by: job.by,
    changes,
    jobHash: 'hash' in job ? job.hash : await hashJob(job),
    previous: last?.hash ?? NO_PREVIOUS,
  };
  return { ...body, hash: await hashValue(body) };
}

/** Where a log stops telling the truth. */
export type ChainFault =
  | { readonly kind: 'empty log' }
  /** This entry was changed, or one before it was dropped or moved. */
  | { readonly kind: 'broken entry'; readonly sequence: number }
  /** The log is whole, but the job is not the one it ends with. */
  | { readonly kind: 'job differs' };

/** The first entry of a log that does not fit; null when the log is whole in itself. */
export async function chainBreak(log: readonly LogEntry[]): Promise<ChainFault | null> {
  let previous = NO_PREVIOUS;
  for (const [index, entry] of log.entries()) {
    const { hash, ...body } = entry;
    if (entry.sequence !== index || entry.previous !== previous || (await hashValue(body)) !== hash)
      return { kind: 'broken entry', sequence: index };
    previous = hash;
  }
  return log.length === 0 ? { kind: 'empty log' } : null;
}

/**
 * Recomputes every hash of a log and compares its end with the job; null when all agrees. It shows a change by
 * mistake or by a hand that leaves the hashes alone; someone who recomputes the whole chain is shown only by an
 * earlier export kept elsewhere.
 */
export async function chainFault(job: Job, log: readonly LogEntry[]): Promise<ChainFault | null> {
  const broken = await chainBreak(log);
  if (broken) return broken;
  return (await hashJob(job)) === log.at(-1)?.jobHash ? null : { kind: 'job differs' };
}

/** Does `longer` begin with all of `shorter`? Then it is the same job, later. */
export const continues = (longer: readonly LogEntry[], shorter: readonly LogEntry[]): boolean =>
  shorter.length <= longer.length && shorter.every((entry, k) => longer[k]?.hash === entry.hash);
