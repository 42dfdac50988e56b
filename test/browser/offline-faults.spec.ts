import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, test as loud, type Page } from '@playwright/test';
import { test as appTest, expect, READING, readScene, step } from './app-page';
import { type Door, openDoor } from './door';

// What stores the tool on the device is ended in its work, as browsers and systems do without a word.

const test = appTest.extend<{ readonly door: Door }>({
  serviceWorkers: 'allow',
  door: async ({ baseURL }, use) => {
    const door = await openDoor(baseURL ?? '');
    await use(door);
    await door.shut();
  },
});

const READY = 'Ready to use without a network.';
const STORING = 'Storing; leave this page open.';
const BROKEN_OFF = 'without a network this page will not open. It tries again by itself';
/** A try that follows a broken one begins after 10 s. */
const STORED = { timeout: 60_000 };
const WEIGHTS = /\/weights[^/]*\.bin/;

/** Ends every service worker of the browser, whatever it does. */
async function stopWorkers(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('ServiceWorker.enable');
  await session.send('ServiceWorker.stopAllWorkers');
  await session.detach();
}

/** Is there a whole copy on the device that a page opens and reads from with no network at all? */
async function expectWhole(page: Page, door: Door): Promise<void> {
  await door.shut();
  await page.reload();
  await expect(page.getByText(READY)).toBeVisible();
  const files = await page.evaluate(async () => {
    const sizes: [string, number][] = [];
    for (const name of await caches.keys())
      for (const request of await (await caches.open(name)).keys())
        sizes.push([request.url, (await (await caches.match(request))?.blob())?.size ?? 0]);
    return sizes;
  });
  const [, weights] = files.find(([url]) => /weights/.test(url)) ?? ['', 0];
  // models/network/weights.bin; half of it was under way when the worker was ended.
  expect(weights).toBeGreaterThan(800_000);
}

test('a worker ended in mid-download: the page says so, its job stays, and it stores again by itself', async ({
  page,
  door,
}) => {
  const asked = door.hold(WEIGHTS);
  await page.goto(door.url);
  await asked;
  await expect(page.getByText(STORING)).toBeVisible();
  await stopWorkers(page);
  await expect(page.getByText(BROKEN_OFF)).toBeVisible();
  door.breakOff();
  await expect(page.getByText(READY)).toBeVisible(STORED);
  await expectWhole(page, door);
});

test('twin: while the network holds the download back nothing is called stored, nor broken off', async ({
  page,
  door,
}) => {
  const asked = door.hold(WEIGHTS);
  await page.goto(door.url);
  await asked;
  await page.waitForTimeout(2000);
  await expect(page.getByText(STORING)).toBeVisible();
  expect(
    await page.evaluate(() => navigator.serviceWorker.getRegistration().then((r) => r?.active ?? null)),
  ).toBeNull();
});

test('a worker ended in mid-update: the old version goes on whole, the next visit has the new one', async ({
  page,
  door,
}) => {
  await page.goto(door.url);
  await expect(page.getByText(READY)).toBeVisible(STORED);
  door.putUpNewerPage();
  const asked = door.hold(/\/index\.html/);
  await page.reload();
  await asked;
  await stopWorkers(page);
  door.breakOff();
  await expect(page.getByText(READY)).toBeVisible();
  const newer = page.getByRole('button', { name: 'Switch to the newer version' });
  await expect(newer).toBeHidden();
  await page.reload();
  await expect(newer).toBeVisible(STORED);
  const loaded = page.waitForEvent('load');
  await newer.click();
  await loaded;
  await expect(page.getByText(READY)).toBeVisible();
  await expect(newer).toBeHidden();
  await expectWhole(page, door);
});

loud(
  'the whole browser killed in mid-download, with a job open: the next visit has the job and stores the rest',
  async ({ baseURL }) => {
    loud.setTimeout(180_000);
    const door = await openDoor(baseURL ?? '');
    const profile = await mkdtemp(join(tmpdir(), 'killed-'));
    const launch = () =>
      chromium.launchPersistentContext(profile, {
        executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
        args: ['--no-sandbox', '--disable-crash-reporter'],
        viewport: { width: 390, height: 844 },
        baseURL: door.url,
        serviceWorkers: 'allow',
      });
    try {
      const asked = door.hold(WEIGHTS);
      const killed = await launch();
      const page = await killed.newPage();
      await readScene(page);
      await step(page, 'Record').click();
      await expect(page.getByText('Saved and read back on this device.')).toBeVisible();
      const job = page.url().slice(door.url.length);
      await asked;
      const cdp = await killed.browser()?.newBrowserCDPSession();
      const { processInfo = [] } = (await cdp?.send('SystemInfo.getProcessInfo')) ?? {};
      expect(processInfo.map(({ type }) => type)).toContain('browser');
      const gone = killed.waitForEvent('close');
      for (const { id } of processInfo)
        try {
          process.kill(id, 'SIGKILL');
        } catch {
          // Gone already, with its parent.
        }
      await gone;
      door.breakOff();
      const next = await launch();
      const again = await next.newPage();
      await again.goto(door.url);
      await expect(again.getByText(READY)).toBeVisible(STORED);
      await again.goto(job);
      await step(again, 'Map').click();
      await expect(again.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
      await again.goto(door.url);
      await expectWhole(again, door);
      await next.close();
    } finally {
      await door.shut();
      await rm(profile, { recursive: true, force: true });
    }
  },
);
