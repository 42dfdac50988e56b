import type { Page } from '@playwright/test';
import { conductors, site } from '../identify/make';
import { expect, expectFit, READING, step, test } from './app-page';
import { openProof, proofFile } from './proof-job';

/** For a person to look at: SHOTS=/folder keeps pictures of the part, in both widths. */
async function shoot(page: Page, name: string, part: 'panel' | 'site'): Promise<void> {
  if (!process.env.SHOTS) return;
  for (const [width, height] of [
    [390, 844],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.locator(`section[aria-labelledby="${part}"]`).screenshot({
      path: `${process.env.SHOTS}/${name}-${width}.png`,
    });
  }
  await page.setViewportSize({ width: 390, height: 844 });
}

const drawn = (page: Page) => page.getByRole('table', { name: 'Panel spaces, 208Y/120 V' });
/** Pole of each space that holds a conductor, as the table of the drawn panel says. */
const poles = async (page: Page): Promise<string[]> =>
  (await drawn(page).locator('tbody tr').all()).length === 0
    ? []
    : await drawn(page)
        .locator('tbody tr')
        .evaluateAll((rows) =>
          rows.map((r) =>
            [...r.querySelectorAll('td')]
              .slice(0, 2)
              .map((c) => c.textContent)
              .join(' '),
          ),
        );

test('a board numbered straight down: said once, and phases and drawing follow', async ({ page }) => {
  await openProof(
    page,
    await proofFile({ conductors: conductors('black', 'red', 'blue'), site: site({ systems: ['us-208y120'] }) }),
  );
  await step(page, 'Map').click();
  await page.getByText('Panel spaces (0)').click();
  for (const [k, space] of ['1', '2', '3'].entries()) {
    await page.getByLabel(`Conductor ${k + 1}`, { exact: true }).fill(space);
    await page.keyboard.press('Tab');
  }
  await expect(drawn(page)).toBeAttached(READING);
  await expect.poll(() => poles(page), READING).toEqual(['1 phase A', '2 phase A', '3 phase B']);
  const numbered = page.getByLabel('Numbered');
  await numbered.selectOption('Straight down, left column first');
  await expect.poll(() => poles(page), READING).toEqual(['1 phase A', '2 phase B', '3 phase C']);
  await page.getByLabel('Spaces in one column').fill('2');
  await page.keyboard.press('Tab');
  // Two spaces a column: the third is the first of the right column.
  await expect.poll(() => poles(page), READING).toEqual(['1 phase A', '2 phase B', '3 phase A']);
  await expectFit(page);
  await shoot(page, 'board-down', 'panel');
  await shoot(page, 'board-down-site', 'site');
  await numbered.selectOption('Right side in reverse phase order');
  await expect.poll(() => poles(page), READING).toEqual(['1 phase A', '2 phase C', '3 phase B']);
  await shoot(page, 'board-reversed', 'panel');
  await numbered.selectOption('Upside down: 1 at the bottom right');
  await expect.poll(() => poles(page), READING).toEqual(['1 phase A', '2 phase A', '3 phase B']);
  await shoot(page, 'board-upside-down', 'panel');
  await numbered.selectOption('Odd left, even right, from the top');
  await expect(page.getByText('Valid where spaces are numbered odd on the left')).toBeVisible(READING);
});

test('a tag read moves the letter and is found where the pole says otherwise', async ({ page }) => {
  await openProof(
    page,
    await proofFile({
      conductors: conductors('black', 'black', 'black', 'white'),
      site: site({ systems: ['us-208y120'] }),
    }),
  );
  await step(page, 'Map').click();
  await page.getByText('Tags read (0)').click();
  for (const [k, tag] of ['C', 'B', 'A'].entries()) {
    await page.getByRole('combobox', { name: `Tag on ${k + 1}`, exact: true }).selectOption(tag);
  }
  await expect(page.getByText('Tags read (3)')).toBeVisible();
  await expect(page.locator('table.conductors tbody tr').first()).toContainText('phase C', READING);
  await expectFit(page);
  await shoot(page, 'tags', 'site');
  await page.getByText('Panel spaces (0)').click();
  await page.getByLabel('Conductor 1', { exact: true }).fill('1');
  await page.keyboard.press('Tab');
  await expect(page.getByText('The tag reads C, but the conductor lands on space 1').first()).toBeVisible(READING);
  await page.getByRole('combobox', { name: 'Tag on 1', exact: true }).selectOption('None');
  await expect(page.getByText('The tag reads C, but the conductor lands on space 1')).toHaveCount(0, READING);
});
