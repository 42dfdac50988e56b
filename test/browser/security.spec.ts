import { test as loud, type Page } from '@playwright/test';
import sharp from 'sharp';
import { chooseFile, expect, passGate, READING, readScene, step, test } from './app-page';
import { SCENE } from './scene';

// Refusals are errors on the console, which fail `test`; where they are what is wanted, `loud` is used.

const violations = (page: Page) => page.evaluate(() => (globalThis as { seen?: string[] }).seen ?? []);

async function watchViolations(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen: string[] = [];
    Object.assign(globalThis, { seen });
    document.addEventListener('securitypolicyviolation', (e) => seen.push(e.effectiveDirective));
  });
}

loud.describe('what the policy refuses', () => {
  loud('inline script, handlers, other origins and frames', async ({ page }) => {
    await watchViolations(page);
    await page.goto('./');
    await expect(page.getByRole('heading').first()).toBeVisible();
    expect(await violations(page)).toEqual([]);
    const outcome = await page.evaluate(async () => {
      const tried: Record<string, boolean> = {};
      // What is run as the page's own script, not by the test's tool, must be added as a script.
      const run = (text: string): void => {
        const script = document.createElement('script');
        script.textContent = text;
        document.head.append(script);
      };
      run('globalThis.inlineRan = true');
      tried.inline = 'inlineRan' in globalThis;
      const image = document.createElement('img');
      image.setAttribute('onerror', 'globalThis.handlerRan = true');
      image.src = 'data:image/png;base64,broken';
      document.body.append(image);
      await new Promise((resolve) => setTimeout(resolve, 300));
      tried.handler = 'handlerRan' in globalThis;
      tried.fetch = await fetch('http://outside.invalid/').then(
        () => true,
        () => false,
      );
      const picture = document.createElement('img');
      picture.src = 'http://outside.invalid/pixel.png';
      const frame = document.createElement('iframe');
      frame.src = 'http://outside.invalid/';
      document.body.append(picture, frame);
      await new Promise((resolve) => setTimeout(resolve, 300));
      return tried;
    });
    expect(outcome).toEqual({ inline: false, handler: false, fetch: false });
    const seen = await violations(page);
    for (const directive of ['script-src-elem', 'script-src-attr', 'connect-src', 'img-src', 'frame-src'])
      expect(seen).toContain(directive);
  });

  loud('the worker may not ask another origin either', async ({ page }) => {
    await readScene(page);
    const workers = page.workers();
    expect(workers.length).toBeGreaterThan(0);
    for (const worker of workers) {
      const told = await worker.evaluate(async () => {
        const violation = new Promise<string>((resolve) => {
          addEventListener('securitypolicyviolation', (e) =>
            resolve((e as SecurityPolicyViolationEvent).effectiveDirective),
          );
          setTimeout(() => resolve('nothing was refused'), 2000);
        });
        await fetch('http://outside.invalid/').catch(() => undefined);
        return violation;
      });
      expect(told).toBe('connect-src');
    }
  });
});

test('after the first photo nothing is asked of any server, and nothing is ever sent', async ({ page, baseURL }) => {
  const asked: string[] = [];
  let reading = false;
  page.on('request', (r) => {
    const own = r.url().startsWith(baseURL ?? '') || r.url().startsWith('blob:') || r.url().startsWith('data:');
    if (!own || r.method() !== 'GET' || r.postData() !== null) asked.push(`${r.method()} ${r.url()}`);
    // At a new address the browser itself looks for the page's icon again, in its cache; the page asks for nothing.
    else if (reading && r.url().startsWith('http') && !r.url().endsWith('/icon.svg'))
      asked.push(`after loading: ${r.url()}`);
  });
  await readScene(page);
  await passGate(page);
  await step(page, 'Record').click();
  reading = true;
  await page.getByRole('button', { name: 'Add photo' }).click();
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('button', { name: 'Stop' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Export JSON' })).toBeVisible(READING);
  expect(asked).toEqual([]);
});

const HOSTILE = '<img src=x onerror="globalThis.injected=true"><script>globalThis.injected=true</script>';

test('markup in a file name, in EXIF and in every field stays text', async ({ page }) => {
  const photo = await sharp(SCENE.path)
    .withExif({ IFD0: { Make: HOSTILE, Model: HOSTILE, ImageDescription: HOSTILE } })
    .jpeg()
    .toBuffer();
  await page.goto('./#/shoot/map');
  await chooseFile(page, { name: `${HOSTILE}.jpg`, mimeType: 'image/jpeg', buffer: photo });
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
  let filled = 0;
  for (const name of ['Photo', 'Map', 'Meter', 'Record'] as const) {
    await step(page, name).click();
    await expect(page.locator('main')).toBeVisible();
    for (const box of await page.locator('input[type=text], input:not([type]), textarea').all()) {
      if (!(await box.isVisible()) || !(await box.isEditable())) continue;
      await box.fill(HOSTILE);
      await box.blur();
      filled++;
    }
  }
  expect(filled).toBeGreaterThan(2);
  await step(page, 'Map').click();
  await step(page, 'Record').click();
  await expect(page.locator('main')).toContainText('<img src=x');
  const found = await page.evaluate(() => ({
    ran: 'injected' in globalThis,
    images: document.querySelectorAll('img[src="x"], [onerror]').length,
  }));
  expect(found).toEqual({ ran: false, images: 0 });
});

loud('the check above would see markup that got through', async ({ page }) => {
  await page.goto('./');
  await page.evaluate((markup) => {
    document.body.insertAdjacentHTML('beforeend', markup);
  }, HOSTILE);
  expect(await page.locator('[onerror]').count()).toBe(1);
});
