import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { bringInFile, chooseFile, expect, openScene, passGate, READING, step, test } from './app-page';
import { SCENE } from './scene';

const rows = (page: Page) => page.getByRole('table', { name: 'Conductors in this photo' }).getByRole('row');

/** Types what the check in hand expects first, on the pad, and enters it. */
async function enterExpected(page: Page): Promise<string> {
  const expected = (await page.locator('.check-card td b').first().textContent()) ?? '';
  const value = expected === 'OL' ? 'OL' : (/[\d.]+/.exec(expected)?.[0] ?? '0');
  if (value === 'OL') await page.getByRole('button', { name: 'OL, over limit' }).click();
  else for (const digit of value) await page.locator('.pad-key', { hasText: digit }).first().click();
  await page.getByRole('button', { name: 'Enter' }).click();
  return value;
}

test('from the live camera to an exported record that comes back whole', async ({ page, browser }) => {
  await page.goto('./');
  await page.getByRole('link', { name: 'Map a gutter or panel' }).click();
  await page.getByRole('button', { name: 'Take photo' }).click();
  await page.getByRole('button', { name: 'Take again' }).click();
  await page.getByRole('button', { name: 'Take photo' }).click();
  await page.getByRole('button', { name: 'Use this photo' }).click();
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);

  await step(page, 'Photo').click();
  const found = (await rows(page).count()) - 1;
  expect(found).toBeGreaterThan(2);

  await passGate(page);
  const value = await enterExpected(page);
  await expect(page.getByText(`Last reading: ${value}`)).toBeVisible(READING);

  await step(page, 'Record').click();
  await page.getByLabel('Job', { exact: true }).fill('Invented gutter');
  await page.getByLabel('Job', { exact: true }).blur();
  await expect(page.getByText('Saved and read back on this device.')).toBeVisible();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export JSON' }).click();
  const file = await (await download).path();
  const exported = JSON.parse(await readFile(file, 'utf8'));
  const [photo] = exported.job.photos;
  expect(exported.job.title).toBe('Invented gutter');
  expect(photo.findings.conductors).toHaveLength(found);
  expect(photo.readings).toHaveLength(1);
  expect(photo.readings[0].by).toBe('Invented Tester');
  const bytes = Buffer.from(exported.photos[0].base64, 'base64');
  expect(createHash('sha256').update(bytes).digest('hex')).toBe(photo.findings.photo.sha256);

  const elsewhere = await browser.newPage();
  await elsewhere.goto(page.url().split('#')[0] ?? '');
  await bringInFile(elsewhere, file);
  await expect(elsewhere.getByText('Invented gutter')).toBeVisible();
  expect((await rows(elsewhere).count()) - 1).toBe(found);
  await elsewhere.close();
});

test('a reload loses nothing, and links lead to a job, a photo and a conductor', async ({ page }) => {
  await openScene(page);
  await passGate(page);
  await enterExpected(page);
  await expect(page.getByText('Last reading')).toBeVisible(READING);
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await page.reload();
  await expect(page.getByText('Last reading')).toBeVisible(READING);
  await step(page, 'Photo').click();
  await page.locator('.row-link').first().click();
  await expect(page.getByRole('heading', { name: 'Conductor 1' })).toBeVisible();
  const link = page.url();
  await page.goto('./#/');
  await expect(page.getByRole('heading', { name: 'Kept on this device' })).toBeVisible();
  await page.goto(link);
  await expect(page.getByRole('heading', { name: 'Conductor 1' })).toBeVisible();
});

test('one conductor: shoot leads to its color', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('link', { name: 'Name one conductor' }).click();
  await page.getByRole('button', { name: 'Take photo' }).click();
  await page.getByRole('button', { name: 'Use this photo' }).click();
  await expect(page.getByRole('heading', { name: 'Color by the photo' })).toBeVisible(READING);
});

test('turnover: shoot leads to the record, and a second photo joins the first', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('link', { name: 'Record a turnover' }).click();
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Record', exact: true })).toBeVisible(READING);
  await page.getByRole('button', { name: 'Add photo' }).click();
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Photo 2' })).toBeVisible(READING);
  await expect(page.getByText('Saved and read back on this device.')).toBeVisible();
});

test('a practice scene opens from the start and stays marked as invented', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('button', { name: SCENE.title }).click();
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  await expect(page.getByText('invented scene')).toBeVisible();
});
