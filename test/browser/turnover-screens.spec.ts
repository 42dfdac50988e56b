import type { Page } from '@playwright/test';
import { expect, expectFit, expectRoom, READING, shoot, test } from './app-page';
import { keyboardFaults } from './keyboard';
import { bringIn, LONG } from './week-job';

/** As `holds` wants it. */
async function look(page: Page, name: string, holds: (page: Page) => Promise<void>): Promise<void> {
  await page.evaluate(() => document.fonts.ready.then(() => {}));
  await holds(page);
  await shoot(page, name);
}

/** Gone through by keyboard alone. */
const WALKED = new Set(['schedule', 'queue', 'report', 'termination', 'pair']);

/** Each takes 20 s: both themes are seen, not each at each size, and axe, which knows no sizes, sees each once. */
const SIGHTS = [
  { size: 'phone', width: 390, height: 844, theme: 'dark', holds: expectFit },
  { size: 'desk', width: 1440, height: 900, theme: 'sun', holds: expectFit },
  { size: 'narrow', width: 320, height: 640, theme: 'dark', holds: expectRoom },
  { size: 'side', width: 844, height: 390, theme: 'sun', holds: expectRoom },
] as const;
for (const { size, width, height, theme, holds } of SIGHTS)
  test(`the turnover screens with many rows and long names: ${size}, ${theme}`, async ({ page }) => {
    test.setTimeout(240_000);
    await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
    await page.setViewportSize({ width, height });
    const see = (name: string): Promise<void> => look(page, `${name}-${size}-${theme}`, holds);
    await bringIn(page);
    await expect(page.getByRole('link', { name: /space 1, pole/ }).first()).toBeVisible(READING);
    await see('terminations');
    await page.getByRole('button', { name: /atch/ }).first().click();
    await expect(page.getByText('None here.').or(page.getByRole('listitem').first())).toBeVisible();
    await see('none-of-them');
    for (const [name, part] of [
      ['overview', ''],
      ['schedule', '/schedule'],
      ['queue', '/queue'],
      ['deviations', '/deviations'],
      ['report', '/report'],
      ['termination', '/at/s0%3A1'],
      ['pair', '/pair/p3'],
      ['lost', '/at/none'],
    ] as const) {
      await page.goto(`./#/job/week/turnover${part}`);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible(READING);
      if (name === 'deviations') await page.getByText('Assign, comment, close').first().click();
      await see(name);
      // Where there is least room a stop is most easily hidden.
      if (size === 'side' && WALKED.has(name)) expect(await keyboardFaults(page), name).toEqual([]);
    }
    if (size === 'side') {
      // Twin: the same walk notices a focus that does not show.
      await page.evaluate(() => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(':focus-visible { outline: none !important; box-shadow: none !important }');
        document.adoptedStyleSheets = [sheet];
      });
      expect((await keyboardFaults(page)).join()).toContain('no focus shown');
    }
    await page.goto('./');
    await expect(page.getByRole('link', { name: /Photograph next/ })).toBeVisible();
    await see('start');
    // A new one: nothing in it yet, then a schedule with faults, then one that is none.
    await page.goto('./#/turnover');
    await expect(page.getByText('No schedule yet.')).toBeVisible();
    await see('schedule-empty');
    await page.getByLabel('Or paste a table').fill(`Panel,Space,Poles,Color\n${LONG},four,9,plaid\n,1,1,BK`);
    await page.getByRole('button', { name: 'Read the pasted table' }).click();
    await see('mapping');
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({ name: 'x.csv', mimeType: 'text/csv', buffer: Buffer.from([0, 1, 2, 0, 255]) });
    await expect(page.getByRole('alert')).toBeVisible();
    await see('schedule-unreadable');
    for (const part of ['Terminations', 'Deviations', 'Photos', 'Report']) {
      await page.getByRole('link', { name: part, exact: true }).click();
      await see(`${part.toLowerCase()}-empty`);
    }
  });

test('a cell that was not clear is entered anew by the keyboard; an earlier photo closes nothing', async ({ page }) => {
  await bringIn(page);
  await page.getByRole('link', { name: 'Schedule', exact: true }).click();
  const row = page.getByRole('listitem').filter({ hasText: 'Row 9:' });
  const cell = row.getByLabel('Space');
  await expect(row).toContainText('four');
  await cell.fill('8, 9, 10, 11');
  await expect(row).not.toContainText('This can be read.');
  await cell.press('Enter');
  await expect(page.getByText('Entered, and not clear yet.')).toBeVisible();
  await expect(cell).toBeFocused();
  await cell.fill('8');
  await expect(row).toContainText('This can be read.');
  await cell.press('Enter');
  await expect(page.getByText('Space: 8. It is clear now.')).toBeVisible();
  await expect(page.getByRole('heading', { name: '0 cells not clear' })).toBeFocused();
  await expect(page.getByText('300 lines, 600 terminations.')).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(cell).toHaveValue('8, 9, 10, 11');

  await page.getByRole('link', { name: 'Deviations', exact: true }).click();
  // The second of twelve photos shows it.
  const item = page.getByRole('listitem').filter({ hasText: 'space 2, pole' }).first();
  await item.getByText('Assign, comment, close').click();
  const photo = item.getByLabel('Photo taken afterwards');
  const close = item.getByRole('button', { name: 'Close with this photo' });
  for (const [index, words] of [
    [2, 'This photo shows it as it was found.'],
    [1, 'This photo was added before'],
  ] as const) {
    await photo.selectOption({ index });
    await expect(item.getByText(words)).toBeVisible();
    await expect(close).toBeDisabled();
  }
  await photo.selectOption({ index: 3 });
  await expect(close).toBeEnabled();
});
