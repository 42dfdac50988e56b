import sharp, { type Sharp } from 'sharp';
import type { PhotoFacts, ProblemKind } from '../../../../src/flow';
import { decodePhoto } from '../../../../src/photo/decode.node.ts';
import { readExif } from '../../../../src/photo/exif';
import { LIMITS, readFacts } from '../../../../src/photo/facts';
import { workingSize } from '../../../../src/photo/working-size';
import { between, pick, seeded } from '../../random';
import { mutateBytes } from '../mutate-bytes';
import { bytesOf, must, outcome, type Target } from '../target';

const REFUSALS: readonly ProblemKind[] = [
  'empty file',
  'not a picture',
  'pdf',
  'heic unsupported',
  'truncated picture',
  'picture too small',
  'picture too large',
  'undecodable picture',
];

const WIDTH = 96;
const HEIGHT = 72;

function stripes(): Buffer {
  const random = seeded(11);
  return Buffer.from(
    Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, k) => ((Math.floor(k / 3) % 24) * 9 + 20 * random()) & 255),
  );
}

const base = sharp(stripes(), { raw: { width: WIDTH, height: HEIGHT, channels: 3 } });
const exif = { IFD0: { Make: 'Invented', Model: 'Camera <b>1</b>', Orientation: '6' } };

/** A small picture of each format, whole. JPEG and WebP carry EXIF. */
export const WHOLE: readonly { readonly format: string; readonly bytes: Uint8Array }[] = await Promise.all(
  [
    ['jpeg', base.clone().withExif(exif).jpeg({ quality: 80 })],
    ['jpeg', base.clone().jpeg({ quality: 60, progressive: true })],
    ['png', base.clone().png()],
    ['png', base.clone().ensureAlpha(0.5).png({ palette: true })],
    ['webp', base.clone().withExif(exif).webp({ quality: 70 })],
    ['webp', base.clone().webp({ lossless: true, effort: 0 })],
    ['gif', base.clone().gif({ effort: 1 })],
    ['avif', base.clone().avif({ quality: 40, effort: 0 })],
  ].map(async ([format, image]) => ({
    format: format as string,
    bytes: new Uint8Array(await (image as Sharp).toBuffer()),
  })),
);
const ALL = WHOLE.map((w) => w.bytes);

function checkFacts(facts: PhotoFacts, bytes: Uint8Array): void {
  const { width, height } = facts;
  must(Number.isInteger(width) && Number.isInteger(height), `size ${width} x ${height}`);
  must(
    Math.min(width, height) >= LIMITS.minSide && Math.max(width, height) <= LIMITS.maxSide,
    `size ${width} x ${height}`,
  );
  must(/^[0-9a-f]{64}$/.test(facts.sha256) && facts.byteLength === bytes.length, 'hash or length');
  must(facts.orientation >= 1 && facts.orientation <= 8, `orientation ${facts.orientation}`);
}

/** Container and EXIF alone: thousands a second. */
export const photoFacts: Target = {
  name: 'photo facts',
  share: 30,
  make: (random) => mutateBytes(random, pick(random, ALL), ALL),
  async check(input) {
    const bytes = bytesOf(input);
    const result = await outcome(() => readFacts(bytes, 'fuzz.jpg'), REFUSALS);
    if ('value' in result) checkFacts(result.value, bytes);
  },
};

/** The pixels too. What is opened has the size its facts say and no transparent pixel. */
export const photoPixels: Target = {
  name: 'photo pixels',
  share: 10,
  make: (random) => mutateBytes(random, pick(random, ALL), ALL),
  async check(input) {
    const bytes = bytesOf(input);
    const result = await outcome(() => decodePhoto(bytes, 'fuzz.jpg'), REFUSALS);
    if ('problem' in result) return;
    const { facts, raster } = result.value;
    checkFacts(facts, bytes);
    const wanted = workingSize(facts.width, facts.height);
    must(raster.width === wanted.width && raster.height === wanted.height, 'raster of another size');
    must(raster.data.length === 4 * raster.width * raster.height, 'raster of another length');
    for (let k = 3; k < raster.data.length; k += 4) must(raster.data[k] === 255, 'transparent pixel');
  },
};

/** A file cut short is refused, or what was cut away held no pixels. The first byte names the picture. */
export const photoCut: Target = {
  name: 'photo cut short',
  share: 5,
  make(random) {
    const which = between(random, 0, ALL.length - 1);
    const { length } = ALL[which]!;
    return Uint8Array.from([which, ...ALL[which]!.subarray(0, between(random, 0, length - 1))]);
  },
  async check(input) {
    const bytes = bytesOf(input);
    const whole = ALL[bytes[0]!]!;
    const result = await outcome(() => decodePhoto(bytes.subarray(1), 'cut.jpg'), REFUSALS);
    if ('problem' in result) return;
    const { raster } = await decodePhoto(whole, 'whole.jpg');
    must(Buffer.from(raster.data).equals(Buffer.from(result.value.raster.data)), 'half a picture passed as whole');
  },
};

const EXIF_BLOCK = Uint8Array.from(
  Buffer.from(
    '49492a000800000003000f01020009000000320000001001020007000000420000001201030001000000060000000000000000000000496e76656e74656400000000000000004d6f64656c20310000',
    'hex',
  ),
);

/** EXIF costs at most the facts in it. */
export const exifBlock: Target = {
  name: 'EXIF block',
  share: 15,
  make: (random) =>
    random() < 0.1
      ? Uint8Array.from({ length: between(random, 0, 400) }, () => between(random, 0, 255))
      : mutateBytes(random, EXIF_BLOCK, [EXIF_BLOCK, ...ALL]),
  async check(input) {
    const facts = await readExif(bytesOf(input));
    must(Number.isInteger(facts.orientation) && facts.orientation >= 1 && facts.orientation <= 8, 'orientation');
    must((facts.camera?.length ?? 0) <= 121 && !/\p{Cc}/u.test(facts.camera ?? ''), 'camera text');
    for (const number of [facts.exposureTime, facts.iso])
      must(number === undefined || (Number.isFinite(number) && number > 0), `number ${number}`);
    must(facts.takenAt === undefined || !Number.isNaN(Date.parse(facts.takenAt)), `time ${facts.takenAt}`);
  },
};
