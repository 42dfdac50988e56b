import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { chooseFile, expect, expectAccessible, READING, step, test } from './app-page';

const TWO_SYSTEMS = join(import.meta.dirname, '../../sample-images/gutter-mixed-480-208.jpg');

const crossings = (page: Page) => page.getByRole('button', { name: /^Crossings: / });
const exchanges = (page: Page) => page.getByRole('button', { name: /^\d+: exchange with / });
const lines = (page: Page) =>
  page.locator('.trace').evaluateAll((paths) => paths.map((p) => p.getAttribute('d')).sort());

/** Selects, by keyboard, the first conductor that crosses another. */
async function selectCrossing(page: Page): Promise<void> {
  for (const key of await page.locator('table.conductors .tag-key').all()) {
    await key.press('Enter');
    await expect(key).toHaveAttribute('aria-pressed', 'true');
    if (await crossings(page).isVisible()) return;
    await key.press('Enter');
  }
  throw new Error('no conductor of this scene crosses another');
}

test('two conductors are exchanged at a crossing by keyboard, read again, and put back by undo', async ({ page }) => {
  await page.goto('./#/shoot/map');
  await chooseFile(page, TWO_SYSTEMS);
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  await step(page, 'Photo').click();
  await selectCrossing(page);
  const before = await lines(page);

  await crossings(page).press('Enter');
  await expect(exchanges(page).first()).toBeVisible();
  await expect(page.locator('.crossing-mark')).toHaveCount(await exchanges(page).count());
  await expectAccessible(page);
  await exchanges(page).first().press('Enter');
  await expect(crossings(page)).toBeVisible(READING);
  const after = await lines(page);
  expect(after).toHaveLength(before.length);
  // Twin: an exchange that changed nothing would be no exchange.
  expect(after).not.toEqual(before);

  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => lines(page)).toEqual(before);
});
