import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { chooseFile, expect, expectAccessible, READING, shoot, step, test } from './app-page';

const STRIPED = fileURLToPath(new URL('../../sample-images/isolated-power.jpg', import.meta.url));

/** Opens the first conductor that the photo screen says has a stripe. */
async function openStriped(page: Page): Promise<void> {
  await page.goto('./#/shoot/map');
  await chooseFile(page, STRIPED);
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  await step(page, 'Photo').click();
  await page.locator('.row-link', { hasText: 'stripe' }).first().click();
  await expect(page.getByRole('heading', { name: 'Read along it' })).toBeVisible();
  // What comes last moves all below it: a touch before would miss.
  await expect(page.getByRole('img', { name: /^It lies where/ })).toBeVisible(READING);
}

test('what was read along a striped conductor is numbered, said, and can be corrected', async ({ page }) => {
  await openStriped(page);
  const marks = page.locator('.mark-list > li');
  await expect(marks.first()).toContainText('stripe');
  await expect(page.locator('.mark-lane b').first()).toHaveText('1');
  await shoot(page, 'marks', true);
  await expectAccessible(page);

  await marks.first().getByRole('button', { name: 'Correct' }).click();
  const stripe = page.getByRole('combobox', { name: 'Stripe', exact: true });
  await expect(stripe).toBeFocused();
  await stripe.selectOption('no stripe');
  await page.getByRole('combobox', { name: 'Tape or sleeve' }).selectOption('blue');
  await page.getByRole('button', { name: 'Keep my word' }).click();
  await expect(page.locator('.mark-list')).toContainText('Tape or sleeve, blue: your word.');
  await expect(page.locator('.mark-list')).not.toContainText('stripe');
  await shoot(page, 'marks-corrected', true);
});

test('a known size tells the others by their width', async ({ page }) => {
  await openStriped(page);
  await page.getByText('Say the color yourself', { exact: true }).click();
  await page.getByRole('combobox', { name: 'Size, if you know it' }).selectOption('12 AWG');
  await page.getByRole('button', { name: 'Keep my word' }).click();
  await expect(page.getByText('Size 12 AWG: your word.')).toBeVisible();
  await page.getByRole('button', { name: 'Next' }).click();
  await expect(page.getByRole('heading', { name: 'Size by width' })).toBeVisible();
  await expect(page.getByText(/12 AWG by your word/)).toBeVisible();
  // As a range with cross sections, and size by size.
  await expect(page.getByText(/^(Between )?\d+ AWG \([\d.]+ mm²\).*%\.$/)).toBeVisible();
  await shoot(page, 'marks-size', true);
  await page.setViewportSize({ width: 1440, height: 900 });
  await shoot(page, 'marks-size-desk', true);
});

test('what ends a conductor can be said where the photo does not tell it', async ({ page }) => {
  await openStriped(page);
  await page.getByText('Say the color yourself', { exact: true }).click();
  await page.getByRole('combobox', { name: 'Bare metal at an end' }).selectOption('a ferrule');
  await page.getByRole('button', { name: 'Keep my word' }).click();
  const said = page.locator('.mark-list > li', { hasText: 'At its end, a ferrule: your word.' });
  await expect(said).toBeVisible();
  await shoot(page, 'marks-end', true);
  await said.getByRole('button', { name: 'Correct' }).click();
  const metal = page.getByRole('combobox', { name: 'Bare metal at an end' });
  await expect(metal).toBeFocused();
  await metal.selectOption('none');
  await page.getByRole('button', { name: 'Keep my word' }).click();
  await expect(page.locator('.mark-list')).not.toContainText('At its end');
});
