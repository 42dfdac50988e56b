import type { Page } from '@playwright/test';
import { expect, expectAccessible, passGate, readScene, step, test } from './app-page';

const SIZES = { phone: { width: 390, height: 844 }, desk: { width: 1440, height: 900 } } as const;

/** Keys smaller than a gloved thumb, 56 px. Links inside a sentence are no keys. */
const smallKeys = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('.key, .tick, summary, select, .steps a')]
      .filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 55.5)
      .map((e) => `${e.textContent} ${e.getBoundingClientRect().height}`),
  );

const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function expectFit(page: Page): Promise<void> {
  await expectAccessible(page);
  expect(await smallKeys(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
}

for (const [name, viewport] of Object.entries(SIZES)) {
  for (const theme of ['dark', 'sun'] as const) {
    test(`every screen is accessible: ${name}, ${theme}`, async ({ page }) => {
      await page.setViewportSize(viewport);
      await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
      await page.goto('./');
      await expect(page.getByRole('heading', { name: 'Practice scenes' })).toBeVisible();
      await expectFit(page);
      await page.goto('./#/limits');
      await expectFit(page);
      await page.goto('./#/shoot/map');
      await expect(page.getByRole('button', { name: 'Take photo' })).toBeEnabled();
      await expectFit(page);
      await readScene(page);
      await expectFit(page);
      await step(page, 'Photo').click();
      await expectFit(page);
      await page.getByRole('button', { name: 'Conductor 1, show in the photo' }).click();
      await expectFit(page);
      await page.locator('.row-link').first().click();
      await page.getByText('Say the color yourself').click();
      await expectFit(page);
      await step(page, 'Meter').click();
      await expectFit(page);
      await passGate(page);
      await expectFit(page);
      await step(page, 'Record').click();
      await expectFit(page);
    });
  }
}

test('a link that leads nowhere says so', async ({ page }) => {
  await page.goto('./#/job/none');
  await expect(page.getByRole('heading', { name: 'Nothing here' })).toBeVisible();
  await expectFit(page);
});

test('320 pixels wide nothing is cut off', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await readScene(page);
  for (const name of ['Photo', 'Map', 'Meter', 'Record'] as const) {
    await step(page, name).click();
    expect(await sidewaysScroll(page)).toBe(0);
  }
});

test('the picture can be used with the keyboard alone', async ({ page }) => {
  await readScene(page);
  await step(page, 'Photo').click();
  await expect(page.getByRole('heading', { name: 'Conductors found' })).toBeFocused();
  await page.getByRole('application').focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.locator('.crosshair')).toBeVisible();
  await page.keyboard.press('+');
  await page.keyboard.press('Enter');
  await expect(page.locator('.trace[data-selected=true], .picture-status, [role=alert]').first()).toBeVisible();
});
