import { readFile } from 'node:fs/promises';
import { test as loud, type Page, type Route } from '@playwright/test';
import { chooseFile, expect, openScene, READING, step, test } from './app-page';
import { SCENE } from './scene';

// Faults that the page logs as errors are run with `loud`; where nothing may be logged, with `test`.

const STAGES = ['decode', 'light', 'segment', 'trace', 'name', 'map'] as const;
const map = (page: Page) => page.getByRole('heading', { name: 'Phase map, by color' });

/** A practice scene given to the camera screen; does not wait for the map. */
async function giveScene(page: Page): Promise<void> {
  await page.goto('./#/shoot/map');
  await chooseFile(page, SCENE.path);
}

/** Files of the built page by what they are. */
const isWorker = (url: URL): boolean => /\/worker-[^/]*\.js$/.test(url.pathname);

/**
 * Ends the worker without a word as soon as it tells that the first of `stages` has begun, the next worker at the second, and so
 * on.
 */
async function killAt(page: Page, stages: readonly string[]): Promise<void> {
  await page.addInitScript((wanted) => {
    const Real = Worker;
    const waiting = [...wanted];
    class Mortal extends Real {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.addEventListener('message', (event: MessageEvent<{ stage?: string; share?: number }>) => {
          const { stage, share } = event.data;
          if (stage === undefined || stage !== waiting[0] || share !== 0) return;
          waiting.shift();
          super.terminate();
        });
      }
    }
    globalThis.Worker = Mortal;
  }, stages);
}

test('a worker that is killed is noticed at every stage, the photo kept, and read when asked again', async ({
  page,
}) => {
  await killAt(page, STAGES);
  await giveScene(page);
  const alert = page.getByRole('alert');
  for (const stage of STAGES) {
    await expect(alert, stage).toContainText('Reading the photo stopped because of a fault', READING);
    await expect(alert, stage).toContainText('The photo is kept.');
    await page.getByRole('button', { name: 'Read again' }).click();
    await expect(alert, stage).toHaveCount(0);
  }
  await expect(map(page)).toBeVisible(READING);
});

test('a job that is open stays whole when the worker dies over another photo', async ({ page }) => {
  await killAt(page, ['segment']);
  await openScene(page);
  await expect(page.getByText('Saved', { exact: true }).first()).toBeVisible();
  await step(page, 'Record').click();
  await page.getByRole('button', { name: 'Add photo' }).click();
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('alert')).toContainText('stopped because of a fault', READING);
  await page.getByRole('button', { name: 'Leave it' }).click();
  await page.getByRole('link', { name: 'Back' }).click();
  await page.reload();
  await step(page, 'Map').click();
  await expect(map(page)).toBeVisible(READING);
});

/** Hands on a file of the page, changed. */
async function changed(route: Route, change: { headers?: Record<string, string>; before?: string }): Promise<void> {
  const response = await route.fetch();
  const text = await response.text();
  await route.fulfill({
    response,
    headers: { ...response.headers(), ...change.headers },
    body: (change.before ?? '') + text,
  });
}

loud('where the policy refuses wasm the user is told what to do, and nothing hangs', async ({ page }) => {
  await page.route(isWorker, (route) =>
    changed(route, { headers: { 'content-security-policy': "script-src 'self'" } }),
  );
  await giveScene(page);
  await expect(page.getByRole('alert')).toContainText('This browser does not let the reading engine start.', READING);
  await expect(page.getByRole('button', { name: 'Read again' })).toBeVisible();
});

// A file still on its way when its test is over is nobody's fault.
loud.afterEach(({ page }) => page.unrouteAll({ behavior: 'ignoreErrors' }));

/** Makes the first large array in the worker fail, as a device does that has run out of memory. */
const NO_MEMORY = `const Real = Float32Array; let left = 1; self.Float32Array = new Proxy(Real, { construct(t, a, n) {
  if (left && typeof a[0] === 'number' && a[0] > 1e6) { left -= 1; throw new RangeError('Array buffer allocation failed'); }
  return Reflect.construct(t, a, n); } });\n`;

loud('out of memory: the photo is kept, and a fresh worker reads it', async ({ page }) => {
  let faulty = true;
  await page.route(isWorker, (route) => changed(route, faulty ? { before: NO_MEMORY } : {}));
  await giveScene(page);
  await expect(page.getByRole('alert')).toContainText('The photo is kept.', READING);
  faulty = false;
  await page.getByRole('button', { name: 'Read again' }).click();
  await expect(map(page)).toBeVisible(READING);
});

loud(
  'whichever file of the engine cannot be fetched, the photo is read without it or the user is told',
  async ({ page }) => {
    test.setTimeout(400_000);
    const files: string[] = [];
    page.on('request', (r) => {
      if (/\.(js|json|bin|wasm)$/.test(new URL(r.url()).pathname)) files.push(new URL(r.url()).pathname);
    });
    await page.goto('./');
    await expect(page.getByRole('heading').first()).toBeVisible();
    const first = files.length;
    await giveScene(page);
    await expect(map(page)).toBeVisible(READING);
    const ofEngine = [...new Set(files.slice(first))];
    expect(ofEngine.some((f) => /weights/.test(f))).toBe(true);
    const told: string[] = [];
    // Each costs a whole reading; all of them: FAULTS=all.
    const tried = ofEngine.filter((file) => process.env.FAULTS === 'all' || /weights|\.wasm/.test(file));
    for (const file of tried) {
      const cut = (url: URL): boolean => url.pathname === file;
      await page.route(cut, (route) => route.abort('internetdisconnected'));
      await page.goto('about:blank');
      await giveScene(page);
      const alert = page.getByRole('alert');
      await expect(map(page).or(alert).first()).toBeVisible(READING);
      told.push(`${file}: ${(await alert.count()) > 0 ? await alert.first().textContent() : 'read'}`);
      await page.unroute(cut);
      if ((await alert.count()) > 0) {
        // The network is back: the same photo, without choosing it again.
        await page.getByRole('button', { name: /^(Read|Work it out) again$/ }).click();
        await expect(alert).toHaveCount(0, READING);
        await expect(map(page)).toBeVisible(READING);
      }
    }
    console.log(told.join('\n'));
    // The weights and what runs them are not needed to read a photo, only to read it well.
    for (const line of told) if (/weights|manifest|\.wasm/.test(line)) expect(line).toMatch(/: read$/);
  },
);

test('a camera that is refused, and one that is not there, get a sentence; a file can be chosen', async ({ page }) => {
  for (const [name, says] of [
    ['NotAllowedError', 'The browser was not allowed to use the camera.'],
    ['NotFoundError', 'No camera was found on this device.'],
  ] as const) {
    await page.addInitScript((error) => {
      if (!('MediaDevices' in globalThis)) return;
      MediaDevices.prototype.getUserMedia = () => Promise.reject(new DOMException('refused', error));
    }, name);
    await page.goto('about:blank');
    await page.goto('./#/shoot/map');
    await expect(page.getByRole('alert')).toContainText(says);
    await expect(page.getByRole('button', { name: 'Photo file' })).toBeEnabled();
  }
  await chooseFile(page, SCENE.path);
  await expect(map(page)).toBeVisible(READING);
});

test('a camera that is unplugged is noticed', async ({ page }) => {
  await page.addInitScript(() => {
    const real = MediaDevices.prototype.getUserMedia;
    MediaDevices.prototype.getUserMedia = async function (constraints) {
      const stream = await real.call(this, constraints);
      Object.assign(globalThis, {
        unplug: () =>
          stream.getTracks().forEach((t) => {
            t.stop();
            t.dispatchEvent(new Event('ended'));
          }),
      });
      return stream;
    };
  });
  await page.goto('./#/shoot/map');
  await expect(page.getByRole('button', { name: 'Take photo' })).toBeEnabled();
  await page.evaluate(() => (globalThis as unknown as { unplug: () => void }).unplug());
  await expect(page.getByRole('alert')).toContainText('The camera stopped.');
  await expect(page.getByRole('button', { name: 'Photo file' })).toBeEnabled();
});

/** Writes to the record fail as on a full device while `full` is set on the page. */
async function storageCanBeFull(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const real = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...args) {
      if ('full' in globalThis) throw new DOMException('no room', 'QuotaExceededError');
      return real.apply(this, args);
    };
  });
}

/**
 * Presses "Save again" where it stands, until the record says that it is saved. What is still worked out for the job is
 * saved by itself when it comes, at any moment, and the key is gone then: so a press may miss it.
 */
async function saveAgainUntilSaved(page: Page): Promise<void> {
  const again = page.getByRole('button', { name: 'Save again' });
  await expect(async () => {
    if (await again.isVisible()) await again.click({ timeout: 2000 });
    await expect(page.getByText('Saved and read back on this device.')).toBeVisible({ timeout: 2000 });
  }).toPass(READING);
}

test('a full device: nothing on screen is lost, it says "not saved", exports, and saves when there is room', async ({
  page,
}) => {
  await storageCanBeFull(page);
  await openScene(page);
  await step(page, 'Record').click();
  await expect(page.getByText('Saved and read back on this device.')).toBeVisible();
  await page.evaluate(() => Object.assign(globalThis, { full: true }));
  const title = page.getByLabel('Job', { exact: true });
  await title.fill('Written on a full device');
  await title.blur();
  await expect(page.getByRole('alert')).toContainText('no room left', READING);
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export JSON' }).click();
  const { job } = JSON.parse(await readFile(await (await download).path(), 'utf8')) as { job: { title: string } };
  expect(job.title).toBe('Written on a full device');
  await page.evaluate(() => Reflect.deleteProperty(globalThis, 'full'));
  await saveAgainUntilSaved(page);
  await page.reload();
  await expect(page.getByLabel('Job', { exact: true })).toHaveValue('Written on a full device');
});

test('the worker that thinks is ended in its work: told, and worked out when asked again', async ({ page }) => {
  await page.addInitScript(() => {
    const Real = Worker;
    let left = 1;
    // The first that thinks gets its work only once it can be missed, and is ended with it in hand.
    class Mortal extends Real {
      private readonly held: unknown[] = [];
      private readonly dies: boolean;
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.dies = options?.name === 'think' && left-- > 0;
        if (!this.dies) return;
        this.addEventListener('message', (event: MessageEvent<{ life?: string }>) => {
          if (!event.data.life) return;
          for (const call of this.held) super.postMessage(call);
          super.terminate();
        });
      }
      override postMessage(message: unknown, transfer?: Transferable[] | StructuredSerializeOptions): void {
        if (this.dies) this.held.push(message);
        else super.postMessage(message, transfer as StructuredSerializeOptions);
      }
    }
    globalThis.Worker = Mortal;
  });
  await giveScene(page);
  await expect(page.getByRole('alert')).toBeVisible(READING);
  await page.getByRole('button', { name: 'Work it out again' }).click();
  await expect(page.getByRole('alert')).toHaveCount(0, READING);
  await expect(page.getByRole('main')).toHaveAttribute('aria-busy', 'false', READING);
});

test('storage that the browser threw away in mid-job is written anew from what is on screen', async ({ page }) => {
  await openScene(page);
  await step(page, 'Record').click();
  const saved = page.getByText('Saved and read back on this device.');
  await expect(saved).toBeVisible();
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: new URL(page.url()).origin, storageTypes: 'indexeddb' });
  const title = page.getByLabel('Job', { exact: true });
  await title.fill('Written after the loss');
  await title.blur();
  await page.waitForTimeout(1500);
  await saveAgainUntilSaved(page);
  for (const [name, kind] of [
    ['Export archive', 'zip'],
    ['Export JSON', 'json'],
  ] as const) {
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name }).click();
    expect((await download).suggestedFilename()).toMatch(new RegExp(`\\.${kind}$`));
  }
  await page.reload();
  await expect(page.getByLabel('Job', { exact: true })).toHaveValue('Written after the loss');
});
