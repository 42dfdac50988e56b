import { existsSync } from 'node:fs';
import type { CDPSession, Page } from '@playwright/test';
import { expect, READING, test } from './app-page';

/** Made by `test/browser/bulk/make-archive.ts`; too large to keep or to make in every check. */
const ARCHIVE = process.env.BULK ?? '';

/** Nielsen's limit for a reaction that feels immediate, milliseconds; a screen of its own may take a second. */
const TOUCH = 200;
const SCREEN = 1000;

/** Time until what a touch brings is drawn, and the longest gap between two frames meanwhile, milliseconds. */
async function timed(
  page: Page,
  act: () => Promise<void>,
  shown: () => Promise<void>,
): Promise<readonly [number, number]> {
  await page.evaluate(() => {
    const watch = { on: true, longest: 0 };
    Object.assign(globalThis, { watch });
    let last = performance.now();
    const frame = (now: number): void => {
      watch.longest = Math.max(watch.longest, now - last);
      last = now;
      if (watch.on) requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  const start = performance.now();
  await act();
  await shown();
  const took = performance.now() - start;
  const longest = await page.evaluate(() => {
    const { watch } = globalThis as unknown as { watch: { on: boolean; longest: number } };
    watch.on = false;
    return watch.longest;
  });
  return [took, longest];
}

/** Processor time of the page's own process so far, all its threads, milliseconds: what other programs on the machine do not lengthen. */
async function worked(cdp: CDPSession): Promise<number> {
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  return processInfo.filter((p) => p.type === 'renderer').reduce((sum, p) => sum + p.cpuTime * 1000, 0);
}

async function heap(page: Page): Promise<number> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('HeapProfiler.collectGarbage');
  const { usedSize } = await cdp.send('Runtime.getHeapUsage');
  await cdp.detach();
  return usedSize / 2 ** 20;
}

test.skip(!existsSync(ARCHIVE), 'BULK=FILE.zip names no archive of large photos');
test('two hundred photos of three megabytes in one job do not slow the screens', { tag: '@timed' }, async ({
  page,
  browser,
}) => {
  test.setTimeout(340_000);
  const cdp = await browser.newBrowserCDPSession();
  await page.goto('./');
  console.log(`heap before: ${(await heap(page)).toFixed(1)} MiB`);
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Bring in an exported job' }).click();
  const begun = performance.now();
  await (await chooser).setFiles(ARCHIVE);
  await page.waitForURL(/#\/job\//, { timeout: 200_000 });
  console.log(`taken in: ${((performance.now() - begun) / 1000).toFixed(1)} s`);
  const link = (name: string | RegExp) => page.getByRole('link', { name, exact: true });
  const heading = (name: string | RegExp) => expect(page.getByRole('heading', { level: 1, name })).toBeVisible(READING);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible(READING);
  const rows: (readonly [string, number, readonly [number, number], number])[] = [];
  const measure = async (name: string, most: number, act: () => Promise<void>, shown: () => Promise<void>) => {
    const before = await worked(cdp);
    const times = await timed(page, act, shown);
    rows.push([name, most, times, (await worked(cdp)) - before]);
  };
  for (const part of ['Deviations', 'Report', 'Photos', 'Schedule', 'Terminations'])
    await measure(
      part,
      SCREEN,
      () => link(part).click(),
      () => heading(part),
    );
  const filter = page.getByRole('group', { name: /Show only/ }).getByRole('button');
  await measure(
    'a filter',
    TOUCH,
    () => filter.nth(2).click(),
    () => expect(filter.nth(2)).toHaveAttribute('aria-pressed', 'true'),
  );
  const more = page.getByRole('button', { name: /more$/ });
  const before = await page.getByRole('listitem').count();
  await measure(
    'more rows',
    TOUCH,
    () => more.click(),
    async () => {
      await expect.poll(() => page.getByRole('listitem').count()).toBeGreaterThan(before);
    },
  );
  await measure(
    'a termination',
    SCREEN,
    () => page.getByRole('listitem').first().getByRole('link').first().click(),
    () => heading(/pole/),
  );
  await page.getByLabel('Tool id').fill('T');
  await measure(
    'a letter typed',
    TOUCH,
    () => page.keyboard.type('7'),
    () => expect(page.getByLabel('Tool id')).toHaveValue('T7'),
  );
  const seen = page.getByRole('button', { name: 'Seen', exact: true });
  // Who touches a key has brought it into view before.
  await seen.scrollIntoViewIfNeeded();
  await measure(
    'an entry',
    TOUCH,
    () => seen.click(),
    () => expect(seen).toHaveAttribute('aria-pressed', 'true'),
  );
  await measure(
    'its save',
    5000,
    async () => {},
    () => expect(page.getByText('Saved', { exact: true }).first()).toBeVisible(),
  );
  await measure(
    'undo',
    TOUCH,
    () => page.getByRole('button', { name: 'Undo' }).click(),
    () => expect(seen).toHaveAttribute('aria-pressed', 'false'),
  );
  await measure(
    'the record',
    SCREEN,
    () => link('Record').click(),
    () => heading('Record'),
  );
  await measure(
    'a photo',
    5000,
    () =>
      page
        .getByRole('link', { name: /^Photo 1\b|IMG_0001/ })
        .first()
        .click(),
    async () => {
      await expect(page.locator('.picture canvas')).toBeVisible(READING);
    },
  );
  for (const [name, , [took, longest], cpu] of rows)
    console.log(
      `${name}: ${took.toFixed(0)} ms (${cpu.toFixed(0)} of processor), longest frame ${longest.toFixed(0)} ms`,
    );
  console.log(`heap after: ${(await heap(page)).toFixed(1)} MiB`);
  for (const [name, most, [took]] of rows) expect.soft(took, name).toBeLessThan(most);
});
