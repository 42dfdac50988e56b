import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { chooseFile, expect, openScene, READING, readScene, step, test } from './app-page';
import { longestTask } from './longest-task';
import { SCENE } from './scene';

const rows = (page: Page) => page.getByRole('table', { name: 'Conductors in this photo' }).getByRole('row');

const BAD = [
  { name: 'empty.jpg', bytes: Buffer.alloc(0), says: 'This file is empty (0 bytes).' },
  { name: 'plan.pdf', bytes: Buffer.from('%PDF-1.7\n%invented'), says: 'This is a PDF, not a photo.' },
  { name: 'note.txt', bytes: Buffer.from('no picture at all, just words'), says: 'This file is not a picture' },
] as const;

test('files that are no photo get a clear sentence, and nothing is lost', async ({ page }) => {
  await openScene(page);
  await step(page, 'Record').click();
  await page.getByRole('button', { name: 'Add photo' }).click();
  for (const { name, bytes, says } of BAD) {
    await chooseFile(page, { name, mimeType: 'image/jpeg', buffer: bytes });
    await expect(page.getByRole('alert')).toContainText(says);
    await page.getByRole('button', { name: 'Choose another photo' }).click();
  }
  const whole = await readFile(SCENE.path);
  await chooseFile(page, { name: 'cut.jpg', mimeType: 'image/jpeg', buffer: whole.subarray(0, 9000) });
  await expect(page.getByRole('alert')).toContainText('cut off');
  await page.getByRole('button', { name: 'Choose another photo' }).click();
  await page.getByRole('link', { name: 'Back' }).click();
  await expect(rows(page).first()).toBeVisible();
});

test('a photo can be dropped anywhere, and pasted', async ({ page }) => {
  const base64 = (await readFile(SCENE.path)).toString('base64');
  for (const kind of ['drop', 'paste'] as const) {
    await page.goto('./#/limits');
    await page.evaluate(
      ([event, data]) => {
        const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
        const transfer = new DataTransfer();
        transfer.items.add(new File([bytes], 'scene.jpg', { type: 'image/jpeg' }));
        const init = { bubbles: true, cancelable: true };
        document.body.dispatchEvent(
          event === 'drop'
            ? new DragEvent('drop', { ...init, dataTransfer: transfer })
            : new ClipboardEvent('paste', { ...init, clipboardData: transfer }),
        );
      },
      [kind, base64] as const,
    );
    await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  }
});

test('Stop really stops, and reading can start again', async ({ page }) => {
  await page.goto('./#/shoot/map');
  await chooseFile(page, SCENE.path);
  // Stopped in the middle of its work: before that it may still wait for the last frame of the live view.
  await expect(page.getByText('Looking for conductors')).toBeVisible(READING);
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByText('Stopped. The photo is still here')).toBeVisible({ timeout: 1000 });
  // The browser ends a worker that is deep in a computation about a second after it was told to.
  const reading = () => page.workers().filter((w) => w.url().includes('inspect') || w.url().includes('worker-')).length;
  await expect.poll(reading, { timeout: 5000 }).toBe(0);
  await page.getByRole('button', { name: 'Read again' }).click();
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
});

/** Middle of the number of the selected conductor, which lies on the conductor itself. */
async function selectedPlace(page: Page): Promise<readonly [number, number]> {
  const tag = await page.locator('.trace-tag[data-selected=true]').boundingBox();
  if (!tag) throw new Error('the selected conductor has no tag');
  return [tag.x + tag.width / 2, tag.y + tag.height / 2];
}

test('a touch on a discarded conductor traces it again', async ({ page }) => {
  await readScene(page);
  await step(page, 'Photo').click();
  const before = await rows(page).count();
  await page.getByRole('button', { name: 'Conductor 1, show in the photo' }).click();
  const [x, y] = await selectedPlace(page);
  await page.getByRole('button', { name: 'Discard' }).click();
  await expect(rows(page)).toHaveCount(before - 1);
  await page.mouse.click(x, y);
  await expect(rows(page)).toHaveCount(before, READING);
});

test('white paper touched in the shot reads every color again', async ({ page }) => {
  await readScene(page);
  await step(page, 'Photo').click();
  await page.getByRole('button', { name: 'Paper' }).click();
  const box = await page.getByRole('application').boundingBox();
  if (!box) throw new Error('no picture');
  await page.mouse.click(box.x + box.width / 2, box.y + box.height * 0.1);
  await page.getByRole('button', { name: 'White paper' }).click();
  await expect(page.getByText('Paper', { exact: true })).toBeVisible(READING);
  await page.getByRole('button', { name: 'Paper' }).click();
  await expect(page.getByRole('button', { name: 'Forget references (1)' })).toBeVisible();
});

test('discard, undo, redo; split', async ({ page }) => {
  await readScene(page);
  await step(page, 'Photo').click();
  const before = await rows(page).count();
  await page.getByRole('button', { name: 'Conductor 1, show in the photo' }).click();
  await page.getByRole('button', { name: 'Discard' }).click();
  await expect(rows(page)).toHaveCount(before - 1);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(rows(page)).toHaveCount(before);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect(rows(page)).toHaveCount(before - 1);

  await page.getByRole('button', { name: 'Conductor 1, show in the photo' }).click();
  await page.getByRole('button', { name: 'Split' }).click();
  await page.mouse.click(...(await selectedPlace(page)));
  await expect(rows(page)).toHaveCount(before, READING);
});

test('a word of the user outranks the photo and can be taken back', async ({ page }) => {
  await openScene(page);
  await step(page, 'Photo').click();
  await page.locator('.row-link').first().click();
  await page.getByText('Say the color yourself', { exact: true }).click();
  await page.getByRole('combobox', { name: 'Color', exact: true }).selectOption('pink');
  await page.getByRole('button', { name: 'Keep my word' }).click();
  await expect(page.getByText('your word', { exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.getByText('your word', { exact: true })).toBeHidden();
});

test('the page never works longer than 100 ms at a stretch while a photo is read', { tag: '@timed' }, async ({
  page,
  browser,
}) => {
  await page.goto('./#/shoot/map');
  await expect(page.getByRole('button', { name: 'Take photo' })).toBeEnabled();
  await browser.startTracing(page, { categories: ['toplevel', 'devtools.timeline', '__metadata'] });
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  const longest = longestTask(await browser.stopTracing());
  console.log(`longest task of the page while reading: ${Math.round(longest)} ms of processor time`);
  expect(longest).toBeGreaterThan(0);
  expect(longest).toBeLessThan(100);
});
