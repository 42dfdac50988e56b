import AxeBuilder from '@axe-core/playwright';
import { test as base, expect, type Page } from '@playwright/test';
import { READ_SCENE } from './read-scene';
import { SCENE } from './scene';

/** Every test on the app fails when the page logs an error or throws one. */
export const test = base.extend<{ readonly quietPage: undefined }>({
  quietPage: [
    async ({ page }, use) => {
      const errors: string[] = [];
      page.on('console', (m) => {
        if (m.type() === 'error') errors.push(m.text());
      });
      page.on('pageerror', (e) => errors.push(String(e)));
      await use(undefined);
      expect(errors).toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };

/** A reading takes a second or two here; five times that on a busy machine. */
export const READING = { timeout: 60_000 };

export const step = (page: Page, name: 'Photo' | 'Map' | 'Meter' | 'Record') =>
  page.getByRole('navigation', { name: 'Steps of the job' }).getByRole('link', { name, exact: true });

type Files = Parameters<Page['setInputFiles']>[1];

/** Presses a key that opens the device's chooser, and chooses. */
async function handTo(page: Page, key: string, file: Files): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: key }).click();
  await (await chooser).setFiles(file as string);
}

/** Hands a file to the chooser of the camera screen. */
export const chooseFile = (page: Page, file: Files): Promise<void> => handTo(page, 'Photo file', file);

/** From the start to the phase map of the invented scene. */
export async function readScene(page: Page): Promise<void> {
  await page.goto('./#/shoot/map');
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
}

/** Hands a file to the start screen's chooser of exported jobs; does not wait for what comes of it. */
export const bringInFile = (page: Page, file: Files): Promise<void> => handTo(page, 'Bring in an exported job', file);

/** To the phase map of the same scene without reading it: as a job that was read elsewhere and brought in. */
export async function openScene(page: Page): Promise<void> {
  await page.goto('./');
  await bringInFile(page, READ_SCENE);
  await page.waitForURL(/#\/job\//);
  await step(page, 'Map').click();
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
}

/** Names the tester and the meter and confirms every first safety step. */
export async function passGate(page: Page): Promise<void> {
  await step(page, 'Meter').click();
  await page.getByLabel('Your name').fill('Invented Tester');
  await page.getByRole('button', { name: 'Panel or fixed wiring' }).click();
  await page.getByRole('button', { name: 'Dry and whole' }).click();
  await page.getByRole('button', { name: 'CAT III', exact: true }).click();
  await page.getByRole('button', { name: '600 V' }).click();
  const steps = page.getByRole('group', { name: 'I confirm' });
  // Not `check`: the last one closes the gate, and with it the box that would be looked at again.
  for (const box of await steps.getByRole('checkbox').all()) await box.click();
  await expect(page.getByRole('heading', { name: 'Next check' })).toBeVisible(READING);
}

/** For a person to look at: SHOTS=/folder keeps pictures of the screen. */
export async function shoot(page: Page, name: string, fullPage = false): Promise<void> {
  if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/${name}.png`, fullPage });
}

/** No violation of WCAG 2.2 AA that axe can see. `without`: rules that cannot be judged in this state. */
export async function expectAccessible(page: Page, without: readonly string[] = []): Promise<void> {
  // Legacy: results are put together in this page. The other way opens a second one for the sake of frames, of which there are none.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode()
    .disableRules([...without])
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  expect(violations.map((v) => ({ rule: v.id, where: v.nodes.map((n) => n.target.join(' ')).slice(0, 5) }))).toEqual(
    [],
  );
}

/** Keys smaller than a gloved thumb, 56 px. Links inside a sentence are no keys. */
const smallKeys = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('.key, .tick, summary, select, .steps a')]
      .filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 55.5)
      .map((e) => `${e.textContent} ${e.getBoundingClientRect().height}`),
  );

/** How much wider than the window the page is, px. */
export const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Every key large enough, nothing wider than the window. */
export async function expectRoom(page: Page): Promise<void> {
  // Rows out of sight have a guessed height until the browser has laid them out.
  await expect.poll(() => smallKeys(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
}

/** Accessible, every key large enough, nothing wider than the window. */
export async function expectFit(page: Page): Promise<void> {
  await expectAccessible(page);
  await expectRoom(page);
}
