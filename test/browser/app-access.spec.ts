import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { expect, expectAccessible, expectFit, openScene, passGate, sidewaysScroll, step, test } from './app-page';
import { bringIn } from './week-job';

/** Each takes half a minute, nearly all of it axe's: both themes are seen, not each at each size. */
const SIGHTS = [
  { size: 'phone', viewport: { width: 390, height: 844 }, theme: 'dark' },
  { size: 'desk', viewport: { width: 1440, height: 900 }, theme: 'sun' },
] as const;

for (const { size, viewport, theme } of SIGHTS)
  test(`every screen is accessible: ${size}, ${theme}`, async ({ page }) => {
    test.setTimeout(240_000);
    await page.setViewportSize(viewport);
    await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
    await page.goto('./');
    await expect(page.getByRole('heading', { name: 'Practice scenes' })).toBeVisible();
    await expectFit(page);
    for (const hash of ['#/limits', '#/help', '#/colors', '#/sheet']) {
      await page.goto(`./${hash}`);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await expectFit(page);
    }
    await page.goto('./#/shoot/map');
    await expect(page.getByRole('button', { name: 'Take photo' })).toBeEnabled();
    await expectFit(page);
    await openScene(page);
    await expectFit(page);
    await step(page, 'Photo').click();
    await expectFit(page);
    await page.getByRole('button', { name: 'Conductor 1, show in the photo' }).click();
    await expectFit(page);
    await page.locator('.row-link').first().click();
    await page.getByText('Say the color yourself', { exact: true }).click();
    await expectFit(page);
    await step(page, 'Meter').click();
    await expectFit(page);
    await passGate(page);
    await expectFit(page);
    await step(page, 'Record').click();
    await expectFit(page);
  });

test('a link that leads nowhere says so', async ({ page }) => {
  await page.goto('./#/job/none');
  await expect(page.getByRole('heading', { name: 'Nothing here' })).toBeVisible();
  await expectFit(page);
});

/** Keys that reach out of the window, or whose words reach out of them. */
const cutKeys = (page: Page, keys = '.deck .key, .steps a, .bar .key'): Promise<string[]> =>
  page.evaluate(
    (selector) =>
      [...document.querySelectorAll<HTMLElement>(selector)]
        .filter((e) => e.checkVisibility())
        .filter((e) => {
          const { left, right } = e.getBoundingClientRect();
          return left < -0.5 || right > innerWidth + 0.5 || e.scrollWidth > e.clientWidth + 1;
        })
        .map((e) => `${e.textContent} ${e.getBoundingClientRect().right}`),
    keys,
  );

async function expectNothingCut(page: Page): Promise<void> {
  for (const name of ['Photo', 'Map', 'Meter', 'Record'] as const) {
    await step(page, name).click();
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await cutKeys(page)).toEqual([]);
  }
}

test('320 pixels wide, and on its side, nothing is cut off', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await openScene(page);
  await expectNothingCut(page);
  await page.setViewportSize({ width: 844, height: 390 });
  await expectNothingCut(page);
  await page.goto('./#/colors');
  await page.setViewportSize({ width: 320, height: 640 });
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await cutKeys(page)).toEqual([]);
});

test('text twice as large: everything can still be reached', async () => {
  // The reader's own text size is a setting of the browser, not of a page: a profile of its own has it.
  const profile = await mkdtemp(join(tmpdir(), 'hueproof-profile-'));
  await mkdir(join(profile, 'Default'));
  const twice = { webkit: { webprefs: { default_font_size: 32, default_fixed_font_size: 26 } } };
  await writeFile(join(profile, 'Default/Preferences'), JSON.stringify(twice));
  const { executablePath, args } = test.info().project.use.launchOptions ?? {};
  const { baseURL } = test.info().project.use;
  const context = await chromium.launchPersistentContext(profile, {
    ...(executablePath && { executablePath }),
    ...(args && { args }),
    ...(baseURL && { baseURL }),
    viewport: { width: 390, height: 844 },
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.goto('./');
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
  expect(await cutKeys(page)).toEqual([]);
  await openScene(page);
  await expectNothingCut(page);
  await bringIn(page);
  for (const part of ['terminations', 'schedule', 'deviations', 'report', 'at/s0%3A1', 'pair/p3']) {
    await page.goto(`./#/job/week/turnover/${part}`);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    expect(await sidewaysScroll(page), part).toBe(0);
    expect(await cutKeys(page, '.key, .steps a'), part).toEqual([]);
  }
  await context.close();
  await rm(profile, { recursive: true });
});

test('forced colors and reduced motion: every state is still told apart', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce' });
  await openScene(page);
  // The browser picks the colors here, and axe would judge those of the style sheet.
  await expectAccessible(page, ['color-contrast']);
  const borders = await page
    .locator('.steps a')
    .evaluateAll((all) => all.map((a) => [a.getAttribute('aria-current'), getComputedStyle(a).borderTopColor]));
  const current = borders.filter(([is]) => is === 'page').map(([, color]) => color);
  const others = borders.filter(([is]) => is !== 'page').map(([, color]) => color);
  expect(current).toHaveLength(1);
  expect(others).not.toContain(current[0]);
});

test('the sheet prints to scale, black on white, without the rest of the page', async ({ page }) => {
  await page.addInitScript(() => localStorage.setItem('hueproof.theme', 'dark'));
  await page.goto('./#/sheet');
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 816, height: 1056 });
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden();
  const [ruler, patches] = await page.evaluate(() => {
    const width = document.querySelector('.ruler')?.getBoundingClientRect().width ?? 0;
    return [width, [...document.querySelectorAll('.sheet-patch')].map((p) => getComputedStyle(p).backgroundColor)];
  });
  // 156 mm of drawing hold 150 mm of scale and 3 mm on either side; CSS has 96 px to 25.4 mm.
  expect(ruler).toBeCloseTo((156 / 25.4) * 96, 0);
  expect(patches.slice(1)).toEqual(['rgb(186, 186, 186)', 'rgb(118, 118, 118)', 'rgb(64, 64, 64)']);
  const pdf = await page.pdf({ format: 'Letter', printBackground: true });
  // One page: a PDF counts its pages in its page tree.
  expect(/\/Count (\d+)/.exec(pdf.toString('latin1'))?.[1]).toBe('1');
});

test('the picture can be used with the keyboard alone', async ({ page }) => {
  await openScene(page);
  await step(page, 'Photo').click();
  await expect(page.getByRole('heading', { name: 'Conductors found' })).toBeFocused();
  await page.getByRole('application').focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.locator('.crosshair')).toBeVisible();
  await page.keyboard.press('+');
  await page.keyboard.press('Enter');
  await expect(page.locator('.trace[data-selected=true], .picture-status, [role=alert]').first()).toBeVisible();
});
