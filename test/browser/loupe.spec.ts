import type { Page } from '@playwright/test';
import { expect, expectAccessible, READING, test } from './app-page';
import { SCENE_POINTS } from './scene-points';

/** The fake camera films the test scene (camera-film.ts), 1200 x 1200, cut to 1280 x 720 about its middle. */
const ZOOM = 1280 / 1200;
const inFilm = ([x, y]: readonly [number, number]) => [(x * ZOOM) / 1280, (y * ZOOM - (1280 - 720) / 2) / 720] as const;

const loupe = (page: Page) => page.getByRole('region', { name: 'In the ring now' });

async function aimAt(page: Page, [x, y]: readonly [number, number]): Promise<void> {
  const box = await page.getByLabel('Camera picture').boundingBox();
  if (!box) throw new Error('no camera picture');
  const scale = Math.min(box.width / 1280, box.height / 720);
  await page.mouse.click(
    box.x + box.width / 2 + (x - 0.5) * 1280 * scale,
    box.y + box.height / 2 + (y - 0.5) * 720 * scale,
  );
}

test('the loupe names in passing what the scene says is there, and keeps nothing', async ({ page }) => {
  await page.goto('./#/shoot/hue');
  await expect(loupe(page)).toBeVisible(READING);
  await expect(loupe(page)).toContainText('A passing look that nothing is kept of');
  await aimAt(page, inFilm(SCENE_POINTS.blue));
  const names = loupe(page).locator('.passing-names');
  await expect(names).toContainText('blue', READING);
  await expect(names).toContainText('%');
  await expectAccessible(page);
  // Twin: where the scene has no conductor there is no name.
  await aimAt(page, [0.02, 0.5]);
  await expect(loupe(page)).toContainText('No conductor in the ring', READING);
  await expect(names).toHaveCount(0);
  await page.getByRole('button', { name: 'Ring to the middle' }).click();
  await expect(page.getByRole('button', { name: 'Ring to the middle' })).toHaveCount(0);
  // No way from it into a record: nothing was written, and the start screen has no job.
  await page.getByRole('link', { name: 'Back' }).click();
  await expect(page.getByRole('link', { name: /Name one conductor/ })).toBeVisible();
  const kept = await page.evaluate(async () => {
    const names = (await indexedDB.databases()).map((d) => d.name ?? '');
    const counts = await Promise.all(
      names.map(
        (name) =>
          new Promise<number>((done, fail) => {
            const asked = indexedDB.open(name);
            asked.onerror = () => fail(asked.error);
            asked.onsuccess = () => {
              const db = asked.result;
              const stores = [...db.objectStoreNames].filter((s) => s === 'jobs' || s === 'photos');
              if (stores.length === 0) return done(0);
              const requests = stores.map((s) => db.transaction(s).objectStore(s).count());
              Promise.all(requests.map((r) => new Promise<number>((d) => (r.onsuccess = () => d(r.result))))).then(
                (n) => done(n.reduce((a, b) => a + b, 0)),
                fail,
              );
            };
          }),
      ),
    );
    return counts.reduce((a, b) => a + b, 0);
  });
  expect(kept).toBe(0);
});

test('the other ways in have no loupe', async ({ page }) => {
  await page.goto('./#/shoot/map');
  await expect(page.locator('.live-note')).toBeVisible(READING);
  await expect(loupe(page)).toHaveCount(0);
});
