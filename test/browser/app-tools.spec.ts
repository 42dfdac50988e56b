import type { Page } from '@playwright/test';
import { expect, expectFit, openScene, READING, readScene, shoot, step, test } from './app-page';
import { placeOf, SCENE_POINTS } from './scene-points';

const rows = (page: Page) => page.getByRole('table', { name: 'Conductors in this photo' }).getByRole('row');

async function openPhoto(page: Page): Promise<number> {
  await readScene(page);
  await step(page, 'Photo').click();
  await expect(page.getByRole('heading', { name: 'Conductors found' })).toBeVisible();
  return await rows(page).count();
}

/** Number of the row that a touch at this place selects. */
async function selectAt(page: Page, at: readonly [number, number]): Promise<string> {
  await page.mouse.click(...(await placeOf(page, at)));
  const tag = page.locator('.trace-tag[data-selected=true] text');
  await expect(tag).toBeVisible(READING);
  return (await tag.textContent()) ?? '';
}

test('a known color touched in the shot reads every color again, and can be undone', async ({ page }) => {
  await openPhoto(page);
  await page.getByRole('button', { name: 'Paper' }).click();
  await page.mouse.click(...(await placeOf(page, SCENE_POINTS.blue)));
  await page.getByRole('button', { name: 'Known color' }).click();
  await page.getByLabel('Which color is it for sure?').selectOption('blue');
  await expect(page.getByText('Colors read by what you touched: 1 reference.')).toBeVisible(READING);
  await page.getByRole('button', { name: 'Paper' }).click();
  await expect(page.getByRole('button', { name: 'Forget references (1)' })).toBeVisible();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByText('Light guessed from the scene')).toBeVisible();
});

test('a conductor split in two is joined again, and each step can be undone', async ({ page }) => {
  const before = await openPhoto(page);
  const [left, right] = SCENE_POINTS.blackEnds;
  const middle: readonly [number, number] = [(left[0] + right[0]) / 2, (left[1] + right[1]) / 2 + 12];
  await selectAt(page, left);
  await page.getByRole('button', { name: 'Split' }).click();
  await page.mouse.click(...(await placeOf(page, middle)));
  await expect(rows(page)).toHaveCount(before + 1, READING);
  await selectAt(page, left);
  await page.getByRole('button', { name: 'Join' }).click();
  await page.mouse.click(...(await placeOf(page, right)));
  await expect(rows(page)).toHaveCount(before, READING);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(rows(page)).toHaveCount(before + 1);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(rows(page)).toHaveCount(before);
});

test('a length pointed out by keyboard gives sizes by width, and can be taken back', async ({ page }) => {
  await openScene(page);
  await step(page, 'Photo').click();
  await shoot(page, 'photo-keys');
  await page.getByRole('button', { name: 'Length', exact: true }).click();
  await expectFit(page);
  const picture = page.getByRole('application');
  await picture.focus();
  await picture.press('Enter');
  await expect(page.getByText('Touch its other end.')).toBeVisible();
  for (let k = 0; k < 12; k++) await picture.press('ArrowRight');
  await picture.press('Enter');
  const keep = page.getByRole('button', { name: 'Keep it' });
  await expect(keep).toBeDisabled();
  await expectFit(page);
  await shoot(page, 'length');
  await page.getByLabel(/^Another length/).fill('70,5');
  await keep.click();
  await expect(page.locator('.length-line').first()).toBeAttached();
  await page.locator('.row-link').first().click();
  const size = page.getByRole('region', { name: 'Size by width' });
  await expect(size).toContainText('By the length of 70.5 mm that was pointed out.');
  await expect(size).toContainText(/About [0-9.]+ mm across/);
  await expect(size).toContainText(/Between \d+ AWG .* and \d+ AWG/);
  await size.scrollIntoViewIfNeeded();
  await shoot(page, 'size');
  await step(page, 'Photo').click();
  await page.getByRole('button', { name: 'Let go' }).click();
  await page.getByRole('button', { name: 'Length', exact: true }).click();
  await page.getByRole('button', { name: 'Forget the length' }).click();
  await expect(page.locator('.length-line')).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.length-line').first()).toBeAttached();
});

test('a stroke drawn along a discarded conductor traces it again', async ({ page }) => {
  const before = await openPhoto(page);
  const [left, right] = SCENE_POINTS.blackEnds;
  await selectAt(page, left);
  await page.getByRole('button', { name: 'Discard' }).click();
  await expect(rows(page)).toHaveCount(before - 1);
  await page.getByRole('button', { name: 'Draw' }).click();
  const trace = page.getByRole('button', { name: 'Trace it' });
  await expect(trace).toBeDisabled();
  await page.mouse.move(...(await placeOf(page, left)));
  await page.mouse.down();
  const [x, y] = await placeOf(page, right);
  await page.mouse.move(x, y, { steps: 12 });
  await page.mouse.up();
  await expect(page.locator('.stroke')).toBeVisible();
  await trace.click();
  await expect(rows(page)).toHaveCount(before, READING);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(rows(page)).toHaveCount(before - 1);
});

/** Asked of the track since the page opened; Chromium's fake camera has no torch, so the track is given one here. */
const asked = (page: Page): Promise<readonly boolean[]> =>
  page.evaluate(() => (globalThis as unknown as { torchAsked: readonly boolean[] }).torchAsked);

async function withTorch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const wanted: boolean[] = [];
    Object.assign(globalThis, { torchAsked: wanted });
    const track = MediaStreamTrack.prototype;
    const { getCapabilities, applyConstraints } = track;
    track.getCapabilities = function (this: MediaStreamTrack) {
      return { ...getCapabilities.call(this), torch: true } as MediaTrackCapabilities;
    };
    track.applyConstraints = async function (this: MediaStreamTrack, constraints?: MediaTrackConstraints) {
      const torch = (constraints?.advanced?.[0] as { torch?: boolean } | undefined)?.torch;
      if (torch === undefined) return await applyConstraints.call(this, constraints);
      wanted.push(torch);
      return undefined;
    };
  });
  await page.goto('./#/shoot/map');
}

test('the torch key turns a camera torch on and off', async ({ page }) => {
  await withTorch(page);
  const torch = page.getByRole('button', { name: 'Torch', exact: true });
  await torch.click();
  await expect(torch).toHaveAttribute('aria-pressed', 'true');
  await torch.click();
  await expect(torch).toHaveAttribute('aria-pressed', 'false');
  expect(await asked(page)).toEqual([true, false]);
});

for (const lit of [true, false])
  test(`a frame taken with the torch ${lit ? 'on says so beside the photo' : 'off does not (twin)'}`, async ({
    page,
  }) => {
    await withTorch(page);
    const torch = page.getByRole('button', { name: 'Torch', exact: true });
    if (lit) await torch.click();
    await expect(torch).toHaveAttribute('aria-pressed', String(lit));
    await page.getByRole('button', { name: 'Take photo' }).click();
    await page.getByRole('button', { name: 'Use this photo' }).click();
    await step(page, 'Photo').click(READING);
    await expect(page.getByText(/^Light /)).toBeVisible(READING);
    await expect(page.getByText('Lit by the flash or torch of the camera itself')).toHaveCount(lit ? 1 : 0);
  });

test('a camera without a torch says so and its key does nothing (twin)', async ({ page }) => {
  await page.goto('./#/shoot/map');
  await expect(page.getByRole('button', { name: 'No torch' })).toBeDisabled();
});
