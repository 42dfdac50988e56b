import type { Locator, Page } from '@playwright/test';
import { chooseFile, expect, READING, test } from './app-page';
import { SCENE } from './scene';

/** Camera on the phone, file at the desk. A theme changes no tap. */
const SIGHTS = [
  { size: 'phone', viewport: { width: 390, height: 844 }, theme: 'dark' },
  { size: 'desk', viewport: { width: 1440, height: 900 }, theme: 'sun' },
] as const;

/** Counts the taps of a journey; choosing the file in the device's own chooser counts as one. */
class Thumb {
  taps = 0;
  constructor(readonly page: Page) {}
  async on(key: Locator): Promise<void> {
    this.taps += 1;
    await key.click();
  }
  async onFile(key: Locator): Promise<void> {
    const chooser = this.page.waitForEvent('filechooser');
    await this.on(key);
    this.taps += 1;
    await (await chooser).setFiles(SCENE.path);
  }
}

const JOURNEYS = [
  { way: 'Map a gutter or panel', first: { role: 'heading', name: 'Phase map, by color' } },
  { way: 'Name one conductor', first: { role: 'heading', name: 'Color by the photo' } },
  { way: 'Record a turnover', first: { role: 'heading', name: 'Record' } },
] as const;

for (const { size, viewport, theme } of SIGHTS) {
  test(`first useful answer within three taps: ${size}, ${theme}`, { tag: '@timed' }, async ({ page }) => {
    await page.setViewportSize(viewport);
    await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
    for (const { way, first } of JOURNEYS) {
      await page.goto('./#/');
      const thumb = new Thumb(page);
      const start = Date.now();
      await thumb.on(page.getByRole('link', { name: way }));
      if (size === 'phone') {
        await thumb.on(page.getByRole('button', { name: 'Take photo' }));
        await thumb.on(page.getByRole('button', { name: 'Use this photo' }));
      } else await thumb.onFile(page.getByRole('button', { name: 'Photo file' }));
      await expect(page.getByRole(first.role, { name: first.name, exact: true })).toBeVisible(READING);
      const seconds = ((Date.now() - start) / 1000).toFixed(1);
      console.log(`${size}, ${theme}, ${way}: ${thumb.taps} taps, ${seconds} s`);
      expect(thumb.taps).toBeLessThanOrEqual(3);
    }
  });
}

test('the first walk explains itself on a practice scene in under a minute', async ({ page }) => {
  await page.goto('./');
  const start = Date.now();
  await page.getByRole('button', { name: 'Show me' }).click();
  const notes = page.getByRole('complementary', { name: 'Walk through a practice scene' });
  let words = 0;
  for (const next of ['See the photo', 'See one conductor', 'See the checks', 'See the record', 'Done']) {
    await expect(notes).toBeVisible(READING);
    words += ((await notes.locator('p').textContent()) ?? '').split(/\s+/).length;
    await notes.getByRole('link', { name: next }).click();
  }
  await expect(page.getByRole('heading', { name: 'Practice scenes' })).toBeVisible();
  // Offered once: whoever walked it to the end is not asked again.
  await expect(page.getByRole('button', { name: 'Show me' })).toHaveCount(0);
  const seconds = (Date.now() - start) / 1000;
  // 238 words a minute is the mean silent reading rate of adults (Brysbaert 2019).
  const reading = (words / 238) * 60;
  console.log(`first walk: ${words} words (${reading.toFixed(0)} s to read), ${seconds.toFixed(1)} s of machine`);
  expect(reading).toBeLessThan(45);
});

const SCHEDULE = [
  'Panel,Space,Poles,Phase,Conductor color,Load',
  'LP1,1,1,A,black,Invented load',
  'LP1,3,1,B,red,Invented load',
].join('\n');

test('turnover with a schedule: from the list to a saved photo of a termination in three taps', {
  tag: '@timed',
}, async ({ page }) => {
  await page.goto('./#/shoot/record');
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Record', exact: true })).toBeVisible(READING);
  await page.getByRole('link', { name: 'Turnover: schedule' }).click();
  await page.getByRole('link', { name: 'Schedule', exact: true }).first().click();
  await page.getByLabel('Or paste a table').fill(SCHEDULE);
  await page.getByRole('button', { name: 'Read the pasted table' }).click();
  await page.getByRole('button', { name: 'Take 2 lines' }).click();
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  // Opened again from the start, the job is taken up at its terminations.
  await page.goto('./#/');
  await page.getByRole('link', { name: /^Job of/ }).click();
  const thumb = new Thumb(page);
  const start = Date.now();
  await thumb.on(page.getByRole('link', { name: /^Photograph LP1, space 3/ }).first());
  await thumb.on(page.getByRole('button', { name: 'Take photo' }));
  await thumb.on(page.getByRole('button', { name: 'Use this photo' }));
  await expect(page.getByRole('heading', { name: /^LP1, space 3/ })).toBeVisible(READING);
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await expect(page.getByLabel('Photo of this termination').locator('option:checked')).toContainText('camera.jpg');
  console.log(`termination: ${thumb.taps} taps, ${((Date.now() - start) / 1000).toFixed(1)} s`);
  expect(thumb.taps).toBe(3);
  // One step of undo takes photo and place back together.
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByText('No photo of this termination.')).toBeVisible();
});

test('Spanish by the browser: to the map, a reading with a comma, and back to English by a key', async ({
  browser,
}) => {
  const context = await browser.newContext({ locale: 'es-ES', permissions: ['camera'], serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto('./');
  await expect(page.locator('html')).toHaveAttribute('lang', 'es-ES');
  await page.getByRole('link', { name: 'Mapa de canaleta o tablero' }).click();
  await page.getByRole('button', { name: 'Tomar foto' }).click();
  await page.getByRole('button', { name: 'Usar esta foto' }).click();
  await expect(page.getByRole('heading', { name: 'Mapa de fases, por color' })).toBeVisible(READING);
  await page.getByRole('link', { name: 'Medidor' }).click();
  await page.getByLabel('Su nombre').fill('Probador Inventado');
  await page.getByRole('button', { name: 'Tablero o instalación fija' }).click();
  await page.getByRole('button', { name: 'Seco y entero' }).click();
  await page.getByRole('button', { name: 'CAT III', exact: true }).click();
  await page.getByRole('button', { name: '600 V' }).click();
  const steps = page.getByRole('group', { name: 'Confirmo' });
  for (const box of await steps.getByRole('checkbox').all()) await box.click();
  const pad = page.getByRole('form', { name: 'Lectura' });
  await expect(pad).toBeVisible(READING);
  await expect(pad.getByRole('button', { name: ',', exact: true })).toBeVisible();
  for (const typed of ['118,4', '118.4']) {
    await pad.getByRole('textbox').fill(typed);
    await expect(pad.getByRole('textbox')).toHaveValue('118,4');
  }
  await page.goto('./#/');
  await page.getByRole('button', { name: 'English' }).click();
  await expect(page.getByRole('link', { name: 'Map a gutter or panel' })).toBeVisible();
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
  await context.close();
});
