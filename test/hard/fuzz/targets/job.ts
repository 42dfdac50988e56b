import { type Job, type LogEntry, message, type ProblemKind } from '../../../../src/flow';
import { identify } from '../../../../src/identify';
import { conductorTable, exportJob, importJob, nextEntry } from '../../../../src/record';
import { judge } from '../../../../src/verify';
import { sampleJob } from '../../../record/sample-job';
import { between } from '../../random';
import { mutateJson } from '../mutate-json';
import { type Json, jsonOf, must, outcome, type Target } from '../target';

const REFUSALS: readonly ProblemKind[] = ['import malformed', 'record changed'];
const AT = '2026-03-04T07:00:00Z';

const JOB = await sampleJob();
const plain = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;

async function exported(job: Job): Promise<Json> {
  const log: LogEntry[] = [await nextEntry(undefined, job, AT, [message('record.change.created')])];
  return plain(await exportJob(job, log, new Map(), AT));
}
const WHOLE = await exported(JOB);
const TEXT = JSON.stringify(WHOLE);

/** A field more, so deep that reading it by recursion runs out of stack. */
const nested = (depth: number): string =>
  TEXT.replace('"by":', `"extra":${'['.repeat(depth)}${']'.repeat(depth)},"by":`);

/** A changed export is refused, or what was changed is none of what it records. */
export const jobChanged: Target = {
  name: 'job changed',
  share: 8,
  make(random) {
    const how = random();
    if (how < 0.7) return mutateJson(random, WHOLE);
    if (how < 0.73) return nested(between(random, 1, 200_000));
    const at = between(random, 0, TEXT.length);
    return TEXT.slice(0, at) + String.fromCharCode(between(random, 0, 127)) + TEXT.slice(at + between(random, 0, 4));
  },
  async check(input) {
    const value = jsonOf(input);
    const text = typeof value === 'string' ? value : JSON.stringify(value);
    const result = await outcome(() => importJob(text), REFUSALS);
    if ('value' in result)
      must(JSON.stringify(plain(result.value.job)) === JSON.stringify(plain(JOB)), 'a changed job came in');
  },
};

/** What the screens do with a job as soon as it is opened. */
export async function openedJob(job: Job): Promise<void> {
  conductorTable(job);
  for (const photo of job.photos) {
    const ids = new Set(photo.findings.conductors.map((c) => c.id));
    const groups = job.site.groups.map((g) => ({ ...g, conductors: g.conductors.filter((c) => ids.has(c)) }));
    const site = { ...job.site, groups: groups.filter((g) => g.conductors.length > 0) };
    const map = identify(photo.findings.conductors, site);
    for (const { roles } of map.assignments)
      must(
        roles.every((r) => r.probability >= 0 && r.probability <= 1.000001),
        'a probability out of range',
      );
    const verdict = judge(map, photo.readings, { site });
    for (const c of verdict.conductors)
      must(c.standing !== 'metered' || c.agree.length > 0, `${c.conductor} metered without a reading`);
  }
}

/** A job whose hashes were all made anew after it was changed: only its form protects the screens. */
export const jobForged: Target = {
  name: 'job forged',
  share: 8,
  make: (random) => mutateJson(random, plain(JOB)),
  async check(input) {
    const forged = jsonOf(input) as unknown as Job;
    let file: Json;
    try {
      file = await exported(forged);
    } catch {
      return; // Not even a forger can hash this.
    }
    const result = await outcome(() => importJob(JSON.stringify(file)), REFUSALS);
    if ('value' in result) await openedJob(result.value.job);
  },
};
