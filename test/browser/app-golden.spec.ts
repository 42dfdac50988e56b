import type { Page } from '@playwright/test';
import { chooseFile, expect, passGate, readScene, test } from './app-page';

/**
 * Pictures of screens that do not depend on what a photo is read as. They are kept in `golden/` to be looked at in a
 * review; renewed with `npm run test:browser -- app-golden --update-snapshots`. Text is set in DejaVu Sans, which
 * comes with Debian's Chromium in CI, so that letters have the same widths everywhere.
 */
const FONT = 'DejaVu Sans';
const CLOSE = { maxDiffPixelRatio: 0.005, animations: 'disabled', scale: 'css' } as const;

const PHONE = { width: 320, height: 640 } as const;
const DESK = { width: 960, height: 600 } as const;

const fontIsHere = (page: Page): Promise<boolean> =>
  page.evaluate((font) => {
    const context = document.createElement('canvas').getContext('2d');
    const width = (family: string): number => {
      if (!context) return 0;
      context.font = `40px ${family}`;
      return context.measureText('Hueproof 0123').width;
    };
    return ['serif', 'monospace'].every((other) => width(`"${font}", ${other}`) === width(`"${font}", sans-serif`));
  }, FONT);

async function settle(page: Page): Promise<void> {
  await page.addStyleTag({ content: `* { font-family: '${FONT}' !important; }` });
  await page.waitForLoadState('networkidle');
}

const SCREENS = [
  { name: 'start', hash: '' },
  { name: 'help', hash: '#/help' },
  { name: 'sheet', hash: '#/sheet' },
  { name: 'nothing-here', hash: '#/job/none' },
] as const;

// The font is forced by a style of the test's own, which the page's policy would refuse.
test.use({ bypassCSP: true });

test.beforeEach(async ({ page }) => {
  await page.goto('about:blank');
  test.skip(!(await fontIsHere(page)), `${FONT} is not installed`);
});

for (const theme of ['dark', 'sun'] as const) {
  test(`screens at rest look as they were reviewed: ${theme}`, async ({ page }) => {
    await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
    for (const { name, hash } of SCREENS) {
      await page.setViewportSize(PHONE);
      await page.goto(`./${hash}`);
      await settle(page);
      await expect(page).toHaveScreenshot(`${name}-phone-${theme}.png`, CLOSE);
    }
    await page.setViewportSize(DESK);
    await page.goto('./');
    await settle(page);
    await expect(page).toHaveScreenshot(`start-desk-${theme}.png`, { ...CLOSE, mask: [page.locator('.sample img')] });
  });
}

test('a photo that cannot be read, and the pad of the meter', async ({ page }) => {
  await page.setViewportSize(PHONE);
  await page.goto('./#/shoot/map');
  await settle(page);
  await chooseFile(page, { name: 'plan.pdf', mimeType: 'image/jpeg', buffer: Buffer.from('%PDF-1.7\n%invented') });
  await expect(page.getByRole('alert')).toBeVisible();
  await expect(page).toHaveScreenshot('failed-phone-dark.png', { ...CLOSE, mask: [page.locator('.arrival')] });
  await page.getByRole('button', { name: 'Choose another photo' }).click();

  await readScene(page);
  await passGate(page);
  await settle(page);
  // The last click left the pointer over some key, which looks different then.
  await page.mouse.move(0, 0);
  // Only the keys: what is asked above them depends on what the photo was read as, and so does the part of a pixel that
  // they begin at.
  await page.locator('.pad-grid').evaluate((pad: HTMLElement) => {
    const { width } = pad.getBoundingClientRect();
    Object.assign(pad.style, {
      position: 'fixed',
      top: '0',
      left: '0',
      width: `${Math.round(width)}px`,
      zIndex: '9',
      background: 'black',
    });
  });
  await expect(page.locator('.pad-grid')).toHaveScreenshot('pad-phone-dark.png', CLOSE);
});

test('twin: a key that moved, and a theme that changed, are seen', async ({ page }) => {
  await page.setViewportSize(PHONE);
  await page.addInitScript(() => localStorage.setItem('hueproof.theme', 'dark'));
  await page.goto('./#/job/none');
  await settle(page);
  await expect(page).toHaveScreenshot('nothing-here-phone-dark.png', CLOSE);
  await page.addStyleTag({ content: '.deck .key { transform: translateY(-24px); }' });
  await expect(page).not.toHaveScreenshot('nothing-here-phone-dark.png', CLOSE);
  await page.addStyleTag({ content: '.deck .key { transform: none !important; }' });
  await expect(page).toHaveScreenshot('nothing-here-phone-dark.png', CLOSE);
  await page.evaluate(() => {
    document.documentElement.dataset.theme = 'sun';
  });
  await expect(page).not.toHaveScreenshot('nothing-here-phone-dark.png', CLOSE);
});
