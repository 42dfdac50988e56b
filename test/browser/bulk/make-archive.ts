/*
 * Makes the archive that `app-bulk.spec.ts` measures with: photos of a turnover (what `test/command/bulk/measure.ts` left
 * as record.zip), their bytes exchanged for pictures of 16 megapixels:
 *
 *     npx tsx test/browser/bulk/make-archive.ts FROM.zip TO.zip [PHOTOS, 200]
 */
import { createWriteStream, openAsBlob, readFileSync } from 'node:fs';
import { Writable } from 'node:stream';
import sharp from 'sharp';
import type { Job, JobPhoto } from '../../../src/flow';
import { loadArchive, nextEntry } from '../../../src/record';
import { hashBytes } from '../../../src/record/hash';
import { shellOf } from '../../../src/record/job-hash';

const [from = '', to = '', count = '200'] = process.argv.slice(2);
const SIDE = 4000;
/** Of a phone's photo of that size. */
const BYTES = 3_000_000;

const raw = { raw: { width: SIDE, height: SIDE, channels: 3 } } as const;
const noise = { type: 'gaussian', mean: 128, sigma: 7 } as const;
const grain = await sharp({ create: { width: SIDE, height: SIDE, channels: 3, background: 'gray', noise } })
  .removeAlpha()
  .raw()
  .toBuffer();

/** A scene at full size with grain, pressed to about the wanted bytes. */
async function large(name: string): Promise<Buffer> {
  const picture = readFileSync(new URL(`../../../sample-images/${name}.jpg`, import.meta.url));
  const whole = await sharp(picture)
    .resize(SIDE, SIDE)
    .composite([{ input: grain, ...raw, blend: 'soft-light' }])
    .removeAlpha()
    .raw()
    .toBuffer();
  let best = Buffer.alloc(0);
  for (let quality = 60; best.length < BYTES && quality <= 95; quality += 7)
    best = await sharp(whole, raw).jpeg({ quality }).toBuffer();
  return best;
}

const { readArchive, sourceOf, writeArchive } = await loadArchive();
const archive = await readArchive(await openAsBlob(from));
const names = [
  'gutter-208y120',
  'gutter-mixed-480-208',
  'gutter-high-leg',
  'isolated-power',
  'switch-box',
  'faded-red',
];
const pictures: Buffer[] = [];
for (const name of names) pictures.push(await large(name));

/** No two photos have the same bytes: a number stands after the end of the picture. */
const bytesOf = (k: number): Uint8Array<ArrayBuffer> =>
  new Uint8Array(Buffer.concat([pictures[k % pictures.length] as Buffer, Buffer.from(`photo ${k}`)]));

const photos: JobPhoto[] = [];
for (const [k, photo] of archive.job.photos.slice(0, Number(count)).entries()) {
  const bytes = bytesOf(k);
  const facts = { ...photo.findings.photo, byteLength: bytes.length, sha256: await hashBytes(bytes) };
  photos.push({ ...photo, findings: { ...photo.findings, photo: { ...facts, width: SIDE, height: SIDE } } });
}
const job: Job = { ...archive.job, title: 'Invented turnover of large photos', photos };
const now = '2026-03-04T07:00:00Z';
const log = [await nextEntry(undefined, job, now, [])];
const at = new Map(photos.map((photo, k) => [photo.id, k]));
const source = sourceOf(
  job,
  await shellOf(job),
  log,
  async (id) => new Blob([bytesOf(at.get(id) ?? 0)], { type: 'image/jpeg' }),
);
await writeArchive(source, Writable.toWeb(createWriteStream(to)) as WritableStream<Uint8Array<ArrayBuffer>>, now);
await archive.close();
console.log(`${photos.length} photos of ${pictures.map((p) => (p.length / 1e6).toFixed(1)).join(', ')} MB`);
