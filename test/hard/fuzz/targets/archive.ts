import { type LogEntry, message, type ProblemKind } from '../../../../src/flow';
import { loadArchive, nextEntry } from '../../../../src/record';
import { shellOf } from '../../../../src/record/job-hash';
import { PHOTO_BYTES, sampleJob } from '../../../record/sample-job';
import { mutateBytes } from '../mutate-bytes';
import { bytesOf, must, outcome, type Target } from '../target';

const REFUSALS: readonly ProblemKind[] = ['archive damaged', 'archive too large', 'import malformed', 'record changed'];
const AT = '2026-03-04T07:00:00Z';

const { readArchive, sourceOf, writeArchive } = await loadArchive();
const JOB = await sampleJob();

async function whole(): Promise<Uint8Array> {
  const log: LogEntry[] = [await nextEntry(undefined, JOB, AT, [message('record.change.created')])];
  const bytes = new Blob([PHOTO_BYTES], { type: 'image/jpeg' });
  const source = sourceOf(JOB, await shellOf(JOB), log, async () => bytes);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const sink = new WritableStream<Uint8Array>({
    write: (chunk) => {
      parts.push(new Uint8Array(chunk));
    },
  });
  await writeArchive(source, sink, AT);
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}
const WHOLE = await whole();

/** A damaged archive is refused, or what comes out of it is the job and the photo that went in. */
export const archive: Target = {
  name: 'archive',
  share: 6,
  make: (random) => mutateBytes(random, WHOLE, [WHOLE]),
  async check(input) {
    const blob = new Blob([new Uint8Array(bytesOf(input))]);
    const result = await outcome(() => readArchive(blob), REFUSALS);
    if ('problem' in result) return;
    const read = result.value;
    must(JSON.stringify(read.job) === JSON.stringify(JOB), 'another job came out');
    const photo = await outcome(() => read.bytes('p1'), REFUSALS);
    await read.close();
    if ('problem' in photo) return;
    must(Buffer.from(await photo.value.arrayBuffer()).equals(Buffer.from(PHOTO_BYTES)), 'another photo came out');
  },
};
