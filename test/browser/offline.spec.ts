import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { test as appTest, expect, expectAccessible, READING, step } from './app-page';
import { type Door, openDoor } from './door';
import { type Outside, openOutside } from './outside';
import { SCENE } from './scene';

interface Around {
  readonly door: Door;
  readonly outside: Outside;
  /** Requests of pages, workers and the service worker that failed or went to another origin. */
  readonly astray: string[];
}

const test = appTest.extend<Around>({
  serviceWorkers: 'allow',
  door: async ({ baseURL }, use) => {
    const door = await openDoor(baseURL ?? '');
    await use(door);
    await door.shut();
  },
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the names of what a fixture needs from this pattern
  outside: async ({}, use) => {
    const outside = await openOutside();
    await use(outside);
    outside.close();
  },
  proxy: async ({ outside }, use) => await use({ server: outside.server, bypass: '127.0.0.1' }),
  astray: async ({ context, door }, use) => {
    const astray: string[] = [];
    context.on('requestfailed', (r) => astray.push(`failed ${r.url()}`));
    context.on('request', (r) => {
      const url = r.url();
      if (!url.startsWith(door.url) && !url.startsWith('blob:') && !url.startsWith('data:')) astray.push(url);
    });
    await use(astray);
  },
});

const READY = 'Ready to use without a network.';
/** Megabytes that may be stored, and that the first screen may load; a guard against growth, not a target. */
const MOST_STORED = 20e6;
const MOST_FIRST = 1e6;

async function untilReady(page: Page, door: Door): Promise<void> {
  await page.goto(door.url);
  await expect(page.getByText(READY)).toBeVisible({ timeout: 60_000 });
}

/** Sizes of everything stored, by path, in bytes. */
const storedSizes = (page: Page): Promise<Record<string, number>> =>
  page.evaluate(async () => {
    const sizes: Record<string, number> = {};
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) {
        const response = await cache.match(request);
        sizes[new URL(request.url).pathname] = (await response?.blob())?.size ?? 0;
      }
    }
    return sizes;
  });

const total = (sizes: readonly number[]): number => sizes.reduce((sum, size) => sum + size, 0);

test('after one visit a scene is read by the network segmenter with no network at all', async ({
  page,
  context,
  door,
  outside,
  astray,
}) => {
  await untilReady(page, door);
  await expectAccessible(page);
  const stored = await storedSizes(page);
  for (const kind of [/\/index\.html$/, /cv-raw.*\.js$/, /\.wasm$/, /weights.*\.bin$/, /manifest.*\.json$/, /\.jpg$/])
    expect(Object.keys(stored).some((path) => kind.test(path))).toBe(true);
  const bytes = total(Object.values(stored));
  expect(bytes).toBeGreaterThan(10e6);
  expect(bytes).toBeLessThan(MOST_STORED);
  console.log(`stored: ${Object.keys(stored).length} files, ${bytes} bytes`);

  await context.setOffline(true);
  await door.shut();
  await page.reload();
  await expect(page.getByText(READY)).toBeVisible();
  await page.getByRole('button', { name: SCENE.title }).click();
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  await step(page, 'Record').click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export JSON' }).click();
  const { job } = JSON.parse(await readFile(await (await download).path(), 'utf8'));
  const [{ findings }] = job.photos;
  expect(findings.segmenter).toMatch(/^network/);
  expect(findings.conductors.length).toBeGreaterThan(2);
  expect(astray).toEqual([]);
  expect(outside.asked).toEqual([]);
});

test('the checks above see a request that leaves, and one that fails', async ({ page, door, outside, astray }) => {
  // Asked from a blank page: the tool's own must log no error.
  await page.route(`${door.url}blank`, (route) => route.fulfill({ contentType: 'text/html', body: '' }));
  await page.goto(`${door.url}blank`);
  await page.evaluate(() => {
    navigator.sendBeacon('http://outside.invalid/told', 'a color');
  });
  await expect.poll(() => outside.asked).toContainEqual('http://outside.invalid/told');
  expect(astray).toContainEqual('http://outside.invalid/told');
});

test('the first screen loads little, and nothing of the engine', async ({ page, door, outside, astray }) => {
  const first: string[] = [];
  page.on('request', (r) => first.push(r.url()));
  await page.addInitScript(() => {
    Object.defineProperty(ServiceWorkerContainer.prototype, 'register', { value: () => new Promise(() => {}) });
  });
  await page.goto(door.url);
  await expect(page.getByText('Not yet stored for use without a network.')).toBeVisible();
  await page.waitForLoadState('networkidle');
  const sizes = await page.evaluate(() =>
    performance
      .getEntries()
      .flatMap((e) => (e instanceof PerformanceResourceTiming ? [[e.name, e.decodedBodySize] as const] : [])),
  );
  expect(first.filter((url) => /cv-raw|\.wasm|weights|worker/.test(url))).toEqual([]);
  const own = sizes.filter(([url]) => !url.endsWith('.jpg')).map(([, size]) => size);
  const pictures = sizes.filter(([url]) => url.endsWith('.jpg')).map(([, size]) => size);
  console.log(`first screen: ${total(own)} bytes, practice pictures in view: ${total(pictures)} bytes`);
  expect(total(own)).toBeGreaterThan(0);
  expect(total(own)).toBeLessThan(MOST_FIRST);
  expect(astray).toEqual([]);
  expect(outside.asked).toEqual([]);
});

test('a newer version waits until it is asked for, and until no other window is open', async ({
  page,
  context,
  door,
}) => {
  await untilReady(page, door);
  const other = await context.newPage();
  await other.goto(`${door.url}#/limits`);
  door.putUpNewer();
  let loads = 0;
  page.on('load', () => loads++);
  await page.reload();
  const key = page.getByRole('button', { name: 'Switch to the newer version' });
  await expect(key).toBeVisible({ timeout: 60_000 });
  await expectAccessible(page);
  expect(loads).toBe(1);
  await key.click();
  await expect(page.getByText('Close the other windows of this tool first.')).toBeVisible();
  expect(loads).toBe(1);
  await other.close();
  await key.click();
  await expect(key).toBeHidden();
  await expect(page.getByText(READY)).toBeVisible();
  expect(loads).toBe(2);
});

test('it can be installed: manifest and icons are what they say', async ({ page, door }) => {
  await page.goto(door.url);
  const href = await page.locator('link[rel=manifest]').getAttribute('href');
  const manifest = await (await page.request.get(new URL(href ?? '', door.url).href)).json();
  expect(manifest).toMatchObject({ name: 'Hueproof', display: 'standalone', start_url: './' });
  // Sizes and purposes that a browser asks for before it offers to install: W3C Web Application Manifest, "icons";
  // 192 and 512 px are common practice, no source.
  expect(manifest.icons.map((i: { sizes: string }) => i.sizes)).toEqual(['192x192', '512x512', '512x512']);
  for (const { src, sizes, purpose } of manifest.icons) {
    const body = await (await page.request.get(new URL(src, door.url).href)).body();
    const { width, height } = await sharp(body).metadata();
    expect(`${width}x${height}`).toBe(sizes);
    expect((await sharp(body).stats()).isOpaque).toBe(purpose === 'maskable');
  }
});
