/*
 * Peak of resident memory in Chromium for photos of 1, 12 and 48 megapixels, each read in a browser of its own:
 *
 *     npx tsx test/browser/peak/run.ts [DIST, built anew when left out] [MEGAPIXELS, 1,12,48]
 *
 * The kernel keeps the peak of each process (VmHWM), which is set back before the photo is handed over, so that nothing is
 * missed between two looks. Linux only. Shared libraries count in every process; before is what they hold without a photo.
 */
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from '@playwright/test';
import { build, preview } from 'vite';
import { SIZES, scenePhoto } from '../../../src/command/bench/photo';

const KINDS = ['renderer', 'GPU', 'browser'] as const;
type Kind = (typeof KINDS)[number];
type Megabytes = Record<Kind, number>;

const [outDir = 'dist', sizes = '1,12,48'] = process.argv.slice(2);
const wanted = new Set(sizes.split(',').map((megapixels) => `${megapixels} MP`));
if (process.argv.length < 3) await build({ logLevel: 'warn' });
const server = await preview({ logLevel: 'warn', build: { outDir }, preview: { port: 0, host: '127.0.0.1' } });
const address = server.httpServer.address();
const port = typeof address === 'object' && address ? address.port : 0;

interface Process {
  readonly type: string;
  readonly id: number;
}

async function processes(browser: Browser): Promise<readonly Process[]> {
  const cdp = await browser.newBrowserCDPSession();
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  await cdp.detach();
  return processInfo;
}

/** A line of the status of all processes of each kind, added up, megabytes. */
async function held(list: readonly Process[], line: 'VmRSS' | 'VmHWM'): Promise<Megabytes> {
  const sum: Megabytes = { renderer: 0, GPU: 0, browser: 0 };
  for (const { type, id } of list) {
    const kind = KINDS.find((k) => k === type);
    const status = await readFile(`/proc/${id}/status`, 'utf8').catch(() => '');
    const kilobytes = Number(new RegExp(`${line}:\\s+(\\d+) kB`).exec(status)?.[1] ?? 0);
    if (kind) sum[kind] += kilobytes / 1024;
  }
  return sum;
}

/** Sets the peaks back to what is held now (`man 5 proc`, clear_refs, value 5). */
const resetPeaks = (list: readonly Process[]): Promise<unknown> =>
  Promise.all(list.map(({ id }) => writeFile(`/proc/${id}/clear_refs`, '5').catch(() => {})));

/** One photo of this size in a fresh browser; then a second one, with engine and network loaded already. */
async function measure(photo: string): Promise<{ before: Megabytes; first: Megabytes; second: Megabytes }> {
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  const page = await browser.newPage({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block' });
  const readOne = async (): Promise<Megabytes> => {
    await page.goto(`http://127.0.0.1:${port}/#/shoot/map`);
    const key = page.getByRole('button', { name: 'Photo file' });
    await key.waitFor();
    await resetPeaks(await processes(browser));
    const chooser = page.waitForEvent('filechooser');
    await key.click();
    await (await chooser).setFiles(photo);
    await page.getByRole('heading', { name: 'Phase map, by color' }).waitFor({ timeout: 180_000 });
    return held(await processes(browser), 'VmHWM');
  };
  await page.goto(`http://127.0.0.1:${port}/`);
  await page.getByRole('heading').first().waitFor();
  const before = await held(await processes(browser), 'VmRSS');
  const first = await readOne();
  const second = await readOne();
  await browser.close();
  return { before, first, second };
}

const folder = await mkdtemp(join(tmpdir(), 'peak-'));
const table: Record<string, Record<string, number>> = {};
for (const size of SIZES.filter((s) => wanted.has(s.label))) {
  const photo = join(folder, 'photo.jpg');
  await writeFile(photo, await scenePhoto(size));
  const { before, first, second } = await measure(photo);
  const columns = KINDS.flatMap((kind) => [
    [`${kind} before`, Math.round(before[kind])],
    [`${kind} first`, Math.round(first[kind])],
    [`${kind} second`, Math.round(second[kind])],
  ]);
  table[`${size.label} (${((await stat(photo)).size / 2 ** 20).toFixed(1)} MB)`] = Object.fromEntries(columns);
}
console.log('Peak of resident memory, MB: page and workers (renderer), graphics, browser');
console.table(table);
await rm(folder, { recursive: true });
await server.close();
