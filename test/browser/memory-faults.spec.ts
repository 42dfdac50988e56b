import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, test as loud, type Page } from '@playwright/test';
import { chooseFile, expect, expectFit, openScene, READING, step, test } from './app-page';
import { SCENE } from './scene';

// The device is short of memory: the browser is told so, or ends the page, in the middle of a job.

const map = (page: Page) => page.getByRole('heading', { name: 'Phase map, by color' });
const left = (page: Page) => page.getByRole('region', { name: 'A photo not read to the end' });

/** Ends the page's process as the system does. A crashed page answers nothing more. */
async function crash(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  session.send('Page.crash').catch(() => undefined);
  await crashed;
}

test('told to give back memory all the time, the photo is read as ever', async ({ page }) => {
  const session = await page.context().newCDPSession(page);
  await page.goto('./#/shoot/map');
  await chooseFile(page, SCENE.path);
  let pressed = 0;
  while (!(await map(page).isVisible())) {
    await session.send('Memory.simulatePressureNotification', { level: 'critical' });
    pressed++;
    await page.waitForTimeout(100);
  }
  expect(pressed).toBeGreaterThan(2);
  await expect(page.getByRole('alert')).toHaveCount(0);
});

loud('a page ended while it reads the first photo: the photo is offered again, and read', async ({ page, context }) => {
  await page.goto('./#/shoot/map');
  await chooseFile(page, SCENE.path);
  await expect(page.getByText('Looking for conductors')).toBeVisible(READING);
  await crash(page);
  const next = await context.newPage();
  await next.goto('./');
  await expect(left(next)).toContainText(SCENE.path.slice(SCENE.path.lastIndexOf('/') + 1));
  await expectFit(next);
  await left(next).getByRole('button', { name: 'Read again' }).click();
  await expect(map(next)).toBeVisible(READING);
  await expect(next.getByText('Saved', { exact: true }).first()).toBeVisible();
  await next.goto('./#/');
  await expect(next.getByRole('heading', { name: 'Kept on this device' })).toBeVisible();
  await expect(left(next)).toHaveCount(0);
});

loud(
  'a page ended while it reads a second photo: the job is whole, and the photo goes where it was meant to',
  async ({ page, context }) => {
    await openScene(page);
    await step(page, 'Record').click();
    await expect(page.getByText('Saved and read back on this device.')).toBeVisible();
    const record = page.url();
    await page.getByRole('button', { name: 'Add photo' }).click();
    await chooseFile(page, SCENE.path);
    await expect(page.getByText('Looking for conductors')).toBeVisible(READING);
    // Another page of the tool leaves the photo to the one that reads it.
    const beside = await context.newPage();
    await beside.goto('./');
    await expect(beside.getByRole('heading', { name: 'Kept on this device' })).toBeVisible();
    await expect(left(beside)).toHaveCount(0);
    await crash(page);
    await beside.reload();
    await left(beside).getByRole('button', { name: 'Read again' }).click();
    await expect(beside).toHaveURL(record, READING);
    await beside.goto(record);
    await expect(beside.getByRole('heading', { name: /^Photo 2/ })).toBeVisible(READING);
  },
);

/** Enough for the screens and too little for a reading; from 8 MB on Chromium 156 reads the scene. */
const SMALL_HEAP_MB = 5;

loud(
  'a page whose memory is used up in the middle of a reading: the photo is offered by the next, and read',
  async ({ baseURL }) => {
    const profile = await mkdtemp(join(tmpdir(), 'small-heap-'));
    const launch = (args: readonly string[]) =>
      chromium.launchPersistentContext(profile, {
        executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
        args: ['--no-sandbox', '--disable-crash-reporter', ...args],
      });
    try {
      const small = await launch([`--js-flags=--max-old-space-size=${SMALL_HEAP_MB}`]);
      const page = await small.newPage();
      const crashed = page.waitForEvent('crash', READING).then(() => true);
      await page.goto(`${baseURL}#/shoot/map`);
      await chooseFile(page, SCENE.path);
      const ended = await Promise.race([
        crashed,
        map(page)
          .waitFor(READING)
          .then(() => false),
      ]).catch(() => true);
      await small.close();
      const roomy = await launch([]);
      const next = await roomy.newPage();
      await next.goto(baseURL ?? '');
      if (ended) await left(next).getByRole('button', { name: 'Read again' }).click();
      // Another Chromium may need less: then the photo is in its job.
      else await next.getByRole('link', { name: /photo/ }).first().click();
      if (ended) await expect(map(next)).toBeVisible(READING);
      console.log(`with ${SMALL_HEAP_MB} MB the page ${ended ? 'ended' : 'lived'}`);
      await roomy.close();
    } finally {
      await rm(profile, { recursive: true, force: true });
    }
  },
);
