import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { chooseFile, expect, READING, test } from './app-page';
import { SCENE } from './scene';

/**
 * Photos read, and as many cancelled: 2 with all other tests, 200 with LEAK_PHOTOS=200. LEAK_WIDTH=480 makes them small:
 * what is held does not depend on it, the time does.
 */
const PHOTOS = Number(process.env.LEAK_PHOTOS ?? 2);
const WIDTH = Number(process.env.LEAK_WIDTH ?? 0);

const photo = async (): Promise<Parameters<Page['setInputFiles']>[1]> =>
  WIDTH === 0
    ? SCENE.path
    : { name: 'small.jpg', mimeType: 'image/jpeg', buffer: await sharp(SCENE.path).resize(WIDTH).jpeg().toBuffer() };

interface Held {
  readonly urls: number;
  readonly bitmaps: number;
  readonly workers: number;
  readonly tracks: number;
}

/** Counts what the page makes and gives back. */
async function count(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const held = { urls: 0, bitmaps: 0, workers: 0, tracks: 0 };
    Object.assign(globalThis, { held });
    const { createObjectURL, revokeObjectURL } = URL;
    URL.createObjectURL = (blob) => {
      held.urls++;
      return createObjectURL.call(URL, blob);
    };
    URL.revokeObjectURL = (url) => {
      held.urls--;
      revokeObjectURL.call(URL, url);
    };
    const makeBitmap = globalThis.createImageBitmap.bind(globalThis) as (...args: unknown[]) => Promise<ImageBitmap>;
    Object.assign(globalThis, {
      createImageBitmap: async (...args: unknown[]) => {
        const bitmap = await makeBitmap(...args);
        held.bitmaps++;
        return bitmap;
      },
    });
    const { close } = ImageBitmap.prototype;
    ImageBitmap.prototype.close = function () {
      held.bitmaps--;
      close.call(this);
    };
    const Real = Worker;
    globalThis.Worker = class extends Real {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        held.workers++;
      }
      // Frames of the live view are handed over to the worker, which closes them.
      override postMessage(what: unknown, options?: Transferable[] | StructuredSerializeOptions): void {
        const handed = Array.isArray(options) ? options : (options?.transfer ?? []);
        held.bitmaps -= handed.filter((one) => one instanceof ImageBitmap).length;
        super.postMessage(what, Array.isArray(options) ? { transfer: options } : options);
      }
      override terminate(): void {
        held.workers--;
        super.terminate();
      }
    };
    const getUserMedia = MediaDevices.prototype.getUserMedia;
    MediaDevices.prototype.getUserMedia = async function (constraints) {
      const stream = await getUserMedia.call(this, constraints);
      for (const track of stream.getTracks()) {
        held.tracks++;
        const { stop } = track;
        track.stop = () => {
          held.tracks--;
          stop.call(track);
        };
      }
      return stream;
    };
  });
}

const held = (page: Page): Promise<Held> =>
  page.evaluate(() => ({ ...(globalThis as unknown as { held: Held }).held }));

/** From the start screen to a read photo and back, without loading the page anew. */
async function readOne(page: Page): Promise<void> {
  await page.evaluate(() => {
    location.hash = '#/shoot/map';
  });
  await chooseFile(page, await photo());
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
}

async function cancelOne(page: Page): Promise<void> {
  await page.evaluate(() => {
    location.hash = '#/shoot/map';
  });
  await chooseFile(page, await photo());
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('button', { name: 'Read again' }).waitFor();
  await page.getByRole('button', { name: 'Stop' }).waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: 'Leave it' }).click();
}

async function home(page: Page): Promise<Held> {
  await page.evaluate(() => {
    location.hash = '#/';
  });
  await expect(page.getByRole('heading').first()).toBeVisible();
  // Downloads and pictures give their URLs back a moment later.
  await page.waitForTimeout(500);
  return held(page);
}

test('URLs, bitmaps, workers and cameras are back to their count after photos read and photos cancelled', async ({
  page,
}) => {
  test.setTimeout(120_000 + PHOTOS * 40_000);
  await count(page);
  await page.goto('./#/');
  await readOne(page);
  const before = await home(page);
  for (let k = 0; k < PHOTOS; k++) await readOne(page);
  const afterRead = await home(page);
  expect(afterRead).toEqual(before);
  for (let k = 0; k < PHOTOS; k++) await cancelOne(page);
  const afterCancelled = await home(page);
  console.log(`held before ${JSON.stringify(before)}, after ${PHOTOS} cancelled ${JSON.stringify(afterCancelled)}`);
  // Cancelling ends the engine's worker; the live view of the camera screen may have begun another.
  const { workers, ...rest } = afterCancelled;
  expect({ ...rest, workers: before.workers }).toEqual(before);
  expect(workers).toBeLessThanOrEqual(before.workers);
});

test('the count would see a URL that is kept', async ({ page }) => {
  await count(page);
  await page.goto('./#/');
  const before = await held(page);
  await page.evaluate(() => URL.createObjectURL(new Blob(['kept'])));
  expect((await held(page)).urls).toBe(before.urls + 1);
});
