import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';

import { decodePhoto as decodeInNode } from '../../src/photo/decode.node';
import { heicShell, jpeg, movingGif, raw, withIcc } from '../photo/samples';
import type { Harness } from './photo-harness';
import type { PhotoAnswer } from './photo-worker';
import { type SourceServer, serveSources } from './source-server';

let server: SourceServer;

test.use({
  launchOptions: {
    executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    args: ['--no-sandbox', '--use-fake-device-for-media-stream'],
  },
});

test.beforeAll(async () => {
  server = await serveSources();
});
test.afterAll(async () => {
  await server.close();
});
test.beforeEach(async ({ page }) => {
  await page.goto(server.url('test/browser/photo-harness.html'));
  await page.waitForFunction(() => 'harness' in globalThis);
});

const decode = (page: Page, bytes: Buffer, maxSide?: number): Promise<PhotoAnswer> =>
  page.evaluate(([base64, side]) => (globalThis as unknown as { harness: Harness }).harness.decode(base64, side), [
    bytes.toString('base64'),
    maxSide,
  ] as [string, number | undefined]);

/** Where the worker reads colors, as shares of width and height. */
const QUARTERS = [
  [0.25, 0.25],
  [0.75, 0.25],
  [0.25, 0.75],
  [0.75, 0.75],
] as const;

const far = (a: readonly number[] = [], b: readonly number[] = []): number =>
  Math.max(...a.map((v, k) => Math.abs(v - (b[k] ?? 999))));

for (const format of ['jpeg', 'png', 'webp', 'avif'] as const) {
  test(`${format}: the browser and Node open the same picture, and no bitmap stays open`, async ({ page }) => {
    const bytes = await (await raw(700, 500)).toFormat(format, { quality: 95 }).toBuffer();
    const answer = await decode(page, bytes);
    const node = await decodeInNode(bytes, 'photo');
    expect(answer).toMatchObject({ full: [700, 500], working: [700, 500], scale: 1, openBitmaps: 0 });
    const pixel = [...node.raster.data.subarray((125 * 700 + 175) * 4, (125 * 700 + 175) * 4 + 3)];
    expect(far(answer.quarters?.[0], pixel)).toBeLessThanOrEqual(4);
  });
}

for (const format of ['jpeg', 'png', 'webp'] as const) {
  test(`${format}: every EXIF orientation stands upright as in Node, shrunk and not`, async ({ page }) => {
    for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const bytes = await (await raw(640, 400)).withMetadata({ orientation }).toFormat(format).toBuffer();
      for (const maxSide of [1600, 320]) {
        const node = await decodeInNode(bytes, 'photo', { maxSide });
        const answer = await decode(page, bytes, maxSide);
        const { width, height, data } = node.raster;
        expect(answer.working).toEqual([width, height]);
        for (const [k, [u, v]] of QUARTERS.entries()) {
          const at = (Math.floor(height * v) * width + Math.floor(width * u)) * 4;
          const difference = far(answer.quarters?.[k], [...data.subarray(at, at + 3)]);
          expect(difference, `orientation ${orientation}, quarter ${k}`).toBeLessThanOrEqual(8);
        }
      }
    }
  });
}

test('Display-P3 becomes sRGB as in Node', async ({ page }) => {
  const plain = await sharp({ create: { width: 200, height: 200, channels: 3, background: { r: 150, g: 90, b: 60 } } })
    .png()
    .toBuffer();
  const bytes = await withIcc(plain, 'p3');
  const { raster } = await decodeInNode(bytes, 'photo');
  const answer = await decode(page, bytes);
  expect(far(answer.quarters?.[0], [...raster.data.subarray(0, 3)])).toBeLessThanOrEqual(2);
  expect(far(answer.quarters?.[0], [150, 90, 60])).toBeGreaterThan(4);
});

test('12 and 50 megapixels come out at working size', async ({ page }) => {
  for (const [width, height] of [
    [4000, 3000],
    [8160, 6120],
  ] as const) {
    const big = await sharp({ create: { width, height, channels: 3, background: '#a52' } })
      .jpeg()
      .toBuffer();
    const answer = await decode(page, big);
    console.log(`${width}x${height}: ${Math.round(answer.ms)} ms`);
    expect(answer).toMatchObject({ full: [width, height], working: [1600, 1200], openBitmaps: 0 });
    expect(far(answer.quarters?.[3], [170, 85, 34])).toBeLessThanOrEqual(4);
  }
});

test('what cannot be read is named, and the page lives on', async ({ page }) => {
  const whole = await jpeg();
  const cases: [string, Buffer][] = [
    ['empty file', Buffer.alloc(0)],
    ['pdf', Buffer.from('%PDF-1.7\n')],
    ['not a picture', Buffer.from('phase,color\n')],
    ['heic unsupported', heicShell()],
    ['truncated picture', whole.subarray(0, whole.length / 2)],
    ['picture too small', await jpeg(1, 1)],
    ['picture too large', await (await raw(30_000, 80)).png().toBuffer()],
  ];
  for (const [problem, bytes] of cases) expect(await decode(page, bytes)).toMatchObject({ problem, openBitmaps: 0 });
  expect(await decode(page, whole)).toMatchObject({ working: [400, 300] });
});

test('a moving GIF gives its first frame', async ({ page }) => {
  const answer = await decode(page, await movingGif());
  expect(far(answer.quarters?.[0], [200, 20, 20])).toBeLessThanOrEqual(4);
});

test('the camera gives a frozen frame, starts again and lets go', async ({ page, context }) => {
  await context.grantPermissions(['camera']);
  const seen = await page.evaluate(() => (globalThis as unknown as { harness: Harness }).harness.camera());
  expect(seen).toEqual({ head: [0xff, 0xd8, 0xff], torch: false, torchSet: false, paused: true, ended: 'ended' });
});

test('a refused camera is named', async ({ page, context }) => {
  await context.clearPermissions();
  const problem = await page.evaluate(() => (globalThis as unknown as { harness: Harness }).harness.cameraProblem());
  expect(problem).toBe('camera denied');
});
