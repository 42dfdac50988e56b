import type { Page } from '@playwright/test';
import { expect, openScene, step, test } from './app-page';

/** The forms of color blindness that Chromium can imitate (Machado, Oliveira, Fernandes, IEEE TVCG 15(6), 2009). */
const DEFICIENCIES = ['deuteranopia', 'protanopia', 'tritanopia', 'achromatopsia'] as const;
type Deficiency = (typeof DEFICIENCIES)[number] | 'none';

async function seenWith(page: Page, type: Deficiency): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setEmulatedVisionDeficiency', { type });
}

/** The 8-bit pixels of a part of the page as it is shown, side by side. */
async function pixelsOf(page: Page, of: ReturnType<Page['locator']>): Promise<number[]> {
  const png = (await of.screenshot()).toString('base64');
  return page.evaluate(async (data) => {
    const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    if (!context) throw new Error('no canvas');
    context.drawImage(bitmap, 0, 0);
    const { data: rgba } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    bitmap.close();
    return [...rgba];
  }, png);
}

const luminance = (rgba: readonly number[], at: number): number =>
  [0.2126, 0.7152, 0.0722].reduce((sum, w, c) => {
    const v = rgba[at + c]! / 255;
    return sum + w * (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  }, 0);

/** Largest contrast within a picture of text on its ground, WCAG 2.2 definition. */
function contrastIn(rgba: readonly number[]): number {
  let [low, high] = [1, 0];
  for (let at = 0; at < rgba.length; at += 4) {
    const y = luminance(rgba, at);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return (high + 0.05) / (low + 0.05);
}

/** Share of pixels in which two pictures of one size differ by more than a tenth of the range in some channel. */
function difference(p: readonly number[], q: readonly number[]): number {
  let differing = 0;
  for (let at = 0; at < Math.min(p.length, q.length); at += 4)
    if ([0, 1, 2].some((c) => Math.abs(p[at + c]! - q[at + c]!) > 25)) differing++;
  return differing / (Math.min(p.length, q.length) / 4);
}

test('the imitation works: green and red paint come together for a deuteranope, blue and red do not', async ({
  page,
}) => {
  // An empty page: the program's own forbids styles in attributes.
  await page.setContent(
    '<p id="r" style="background:#a33a1c;width:40px;height:40px"></p><p id="g" style="background:#6a5e1c;width:40px;height:40px"></p>',
  );
  const apart = async (): Promise<number> => {
    const [r, g] = [await pixelsOf(page, page.locator('#r')), await pixelsOf(page, page.locator('#g'))];
    return Math.max(...[0, 1, 2].map((c) => Math.abs(r[c]! - g[c]!)));
  };
  const plain = await apart();
  await seenWith(page, 'deuteranopia');
  expect(await apart()).toBeLessThan(0.75 * plain);
});

for (const type of DEFICIENCIES) {
  test(`with ${type} every color of the list is told by word, letters and hatch`, async ({ page }) => {
    await openScene(page);
    await step(page, 'Photo').click();
    await seenWith(page, type);
    const pieces = page.locator('.cable-piece');
    await expect(pieces.first()).toBeVisible();
    const seen = new Map<string, number[]>();
    for (const piece of await pieces.all()) {
      const word = (await piece.locator('b').textContent()) ?? '';
      const letters = (await piece.locator('.letters').textContent()) ?? '';
      expect(word).not.toBe('');
      expect(letters).toMatch(/^[A-Z]{2,4}(\/[A-Z]{2,4})?$/);
      if (seen.has(word)) continue;
      // WCAG 2.2, 1.4.3: text at least 4.5:1, here as the color-blind eye gets it.
      expect(contrastIn(await pixelsOf(page, piece.locator('b')))).toBeGreaterThanOrEqual(4.5);
      seen.set(word, await pixelsOf(page, piece.locator('.swatch')));
    }
    expect(seen.size).toBeGreaterThan(2);
    const all = [...seen];
    for (const [i, [first, p]] of all.entries())
      for (const [second, q] of all.slice(i + 1))
        expect(difference(p, q), `${first} against ${second}`).toBeGreaterThan(0.03);
  });
}
