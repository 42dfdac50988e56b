import { readFile } from 'node:fs/promises';
import type { Browser, CDPSession, Page } from '@playwright/test';
import sharp from 'sharp';
import { expect, READING, test } from './app-page';
import { SCENE } from './scene';

/** A leak of 50 kB a photo shows after ten; the figure after 50 is measured with PHOTOS=50. */
const PHOTOS = Number(process.env.PHOTOS ?? 10);
const MEBI = 2 ** 20;

/** Resident bytes of all renderers (page and its workers), as the kernel counts them. Linux only. */
async function resident(cdp: CDPSession): Promise<number> {
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  const sizes = processInfo
    .filter((p) => p.type === 'renderer')
    .map(async ({ id }) => {
      const status = await readFile(`/proc/${id}/status`, 'utf8').catch(() => '');
      return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? 0) * 1024;
    });
  return (await Promise.all(sizes)).reduce((a, b) => a + b, 0);
}

interface Held {
  readonly heap: number;
  readonly nodes: number;
  readonly listeners: number;
}

/**
 * What the page holds after everything that nobody holds is gone: bytes of JavaScript heap, DOM nodes, listeners. What the
 * screen before had asked for holds it for a second more: collected until two collections leave the same listeners.
 */
async function held(page: Page): Promise<Held> {
  let last = await collected(page);
  for (let k = 0; k < 8; k++) {
    await page.waitForTimeout(1000);
    const now = await collected(page);
    if (now.listeners === last.listeners) return now;
    last = now;
  }
  return last;
}

async function collected(page: Page): Promise<Held> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('HeapProfiler.collectGarbage');
  const { usedSize } = await cdp.send('Runtime.getHeapUsage');
  const { nodes, jsEventListeners } = await cdp.send('Memory.getDOMCounters');
  await cdp.detach();
  return { heap: usedSize, nodes, listeners: jsEventListeners };
}

/**
 * Bytes of what the program itself holds: the heap without machine code, which V8 goes on making while it warms up, and
 * without the browser's own lists of what happened.
 */
async function objects(page: Page): Promise<number> {
  const cdp = await page.context().newCDPSession(page);
  const chunks: string[] = [];
  cdp.on('HeapProfiler.addHeapSnapshotChunk', ({ chunk }) => void chunks.push(chunk));
  await cdp.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
  await cdp.detach();
  const { snapshot, nodes } = JSON.parse(chunks.join('')) as {
    snapshot: { meta: { node_fields: string[]; node_types: [string[]] } };
    nodes: number[];
  };
  const { node_fields: fields, node_types: types } = snapshot.meta;
  const [type, size] = [fields.indexOf('type'), fields.indexOf('self_size')];
  const others = new Set(['code', 'native'].map((name) => types[0].indexOf(name)));
  let sum = 0;
  for (let at = 0; at < nodes.length; at += fields.length)
    if (!others.has(nodes[at + type] ?? -1)) sum += nodes[at + size] ?? 0;
  return sum;
}

/** Collects the garbage of the page's workers, which otherwise wait until they are short of room. */
async function tidyWorkers(page: Page): Promise<void> {
  for (const worker of page.workers()) {
    await worker.evaluate(() => (globalThis as unknown as { gc?: () => void }).gc?.());
  }
}

async function readPhoto(page: Page, bytes: Buffer, n: number): Promise<void> {
  await page.goto('./#/shoot/map');
  await expect(page.getByRole('button', { name: 'Photo file' })).toBeVisible();
  // Not through the file chooser: the test's own handles of it would hold the input, and with it the whole screen.
  await page.evaluate(
    ([text, name]) => {
      const input = document.querySelector<HTMLInputElement>('input[type=file]');
      if (!input) throw new Error('no input for files');
      const chosen = new DataTransfer();
      const data = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      chosen.items.add(new File([data], name, { type: 'image/jpeg' }));
      input.files = chosen.files;
      input.dispatchEvent(new Event('change', { bubbles: true }));
    },
    [bytes.toString('base64'), `photo-${n}.jpg`] as const,
  );
  await expect(page.getByRole('heading', { name: 'Phase map, by color' })).toBeVisible(READING);
}

test.use({
  launchOptions: {
    executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    // Code that V8 has made is let go of at each collection, or what it makes while it warms up would be taken for a leak.
    args: ['--no-sandbox', '--js-flags=--expose-gc --stress-flush-code'],
  },
});

const browserSession = (browser: Browser): Promise<CDPSession> => browser.newBrowserCDPSession();

test(`after ${PHOTOS} photos the page's memory is within a fifth of where it started`, async ({ page, browser }) => {
  test.setTimeout(600_000);
  const small = await sharp(SCENE.path).resize(480).jpeg({ quality: 90 }).toBuffer();
  const cdp = await browserSession(browser);
  await page.goto('./');
  // The first three load engine, network and fonts and let the allocators grow: the start is after them.
  for (let n = 0; n < 3; n++) await readPhoto(page, small, n);
  // A screen whose content does not grow with the jobs that are kept.
  await page.goto('./#/limits');
  await tidyWorkers(page);
  const start = { ...(await held(page)), objects: await objects(page), resident: await resident(cdp) };
  const between: number[] = [];
  for (let n = 1; n <= PHOTOS; n++) {
    await readPhoto(page, small, n);
    if (n % 10 === 0) between.push(Math.round((await resident(cdp)) / MEBI));
  }
  await page.goto('./#/limits');
  await tidyWorkers(page);
  const end = { ...(await held(page)), objects: await objects(page), resident: await resident(cdp) };
  const mib = (bytes: number): string => (bytes / MEBI).toFixed(1);
  console.log(
    `heap ${mib(start.heap)} -> ${mib(end.heap)} MiB, without code ${mib(start.objects)} -> ${mib(end.objects)} MiB, resident ${mib(start.resident)} -> ${mib(end.resident)} MiB (every ten photos: ${between.join(', ')}), ` +
      `DOM nodes ${start.nodes} -> ${end.nodes}, listeners ${start.listeners} -> ${end.listeners}`,
  );
  expect(end.objects).toBeLessThan(start.objects * 1.2);
  expect(end.nodes).toBeLessThan(start.nodes * 1.2);
  expect(end.listeners).toBeLessThan(start.listeners * 1.2);
  // Printed only: the whole heap, since V8 goes on making code in its own time (4.6 -> 4.9 MiB on an idle machine, 4.5 -> 5.8
  // on a busy one, with the same objects in it), and resident memory, 19 % above its start after 50 photos when last
  // measured: what of that is the workers' own allocators has not been told apart.
  // Twin: the same measure sees 20 MiB that are held on purpose.
  await page.evaluate(() =>
    Object.assign(globalThis, { held: Array.from({ length: 20 * 2 ** 17 }, (_, i) => i + 0.5) }),
  );
  expect(await objects(page)).toBeGreaterThan(end.objects + 15 * MEBI);
});
