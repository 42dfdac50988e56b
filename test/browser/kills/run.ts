/*
 * Kills a real Chromium while the store saves, at seeded moments, and looks at what is left:
 *
 *     npx tsx test/browser/kills/run.ts [KILLS, 1000] [SECONDS, 900] [SEED, 1]
 *
 * Nine of ten kills end the page's own process (SIGKILL), every tenth the whole browser with all its processes. A save
 * that was told as kept must be there afterwards, whole; one under way may be there or not, but never in part.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from '@playwright/test';
import { build } from 'esbuild';
import { seeded } from '../../hard/random';
import { sampleJob } from '../../record/sample-job';
import type { Found, KillsHarness } from './page';

const [kills = 1000, seconds = 900, seed = 1] = process.argv.slice(2).map(Number);
const WHOLE_EVERY = 10;
/** A new job after so many kills: the log of one is proved at each look, and grows. */
const JOB_EVERY = 25;
/** Longest wait before a kill, milliseconds: several saves. */
const LONGEST = 250;

const random = seeded(seed);
const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

const entry = new URL('./page.ts', import.meta.url).pathname;
const { outputFiles } = await build({
  entryPoints: [entry],
  bundle: true,
  format: 'esm',
  write: false,
  logLevel: 'error',
});
const script = outputFiles[0]?.text ?? '';
const server = createServer((request, response) => {
  const isScript = request.url === '/page.js';
  response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
  response.end(isScript ? script : '<!doctype html><title>kills</title><script type="module" src="/page.js"></script>');
});
await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
const address = server.address();
const port = typeof address === 'object' && address ? address.port : 0;

const profile = await mkdtemp(join(tmpdir(), 'kills-'));
const sample = await sampleJob();
const [photo] = sample.photos;
if (!photo) throw new Error('the sample has a photo');

type Scope = { kills: KillsHarness };
const running: { context: BrowserContext | null } = { context: null };
const launch = (): Promise<BrowserContext> =>
  chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-crash-reporter'],
  });

/** Ids of the running browser's processes, itself first. */
async function processes(open: BrowserContext): Promise<readonly { type: string; id: number }[]> {
  const cdp = await open.browser()?.newBrowserCDPSession();
  if (!cdp) throw new Error('no browser session');
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  await cdp.detach();
  return processInfo;
}

function kill(id: number): void {
  try {
    process.kill(id, 'SIGKILL');
  } catch {
    // Gone already, with its parent.
  }
}

/** A page in the running browser, or in a new one where the last kill left none that answers. */
async function freshPage(): Promise<Page> {
  for (let attempt = 0; attempt < 5; attempt++) {
    try {
      running.context ??= await launch();
      return await running.context.newPage();
    } catch {
      // The kill took a process that was meant for the next page, or the old browser is not gone yet.
      await running.context?.close().catch(() => {});
      running.context = null;
      await pause(500);
    }
  }
  throw new Error('no browser starts');
}

const bad: string[] = [];
const ended = { page: 0, browser: 0, before: 0, after: 0, saves: 0 };
let begun = 0;
let kept = 0;
const start = performance.now();
let done = 0;
for (; done < kills && (performance.now() - start) / 1000 < seconds; done++) {
  const id = `k${Math.floor(done / JOB_EVERY)}`;
  if (done % JOB_EVERY === 0) begun = kept = 0;
  const page = await freshPage();
  page.on('console', (m) => {
    const [what, n] = m.text().split(' ');
    if (what === 'begun') begun = Math.max(begun, Number(n));
    if (what === 'kept') kept = Math.max(kept, Number(n));
  });
  await page.goto(`http://127.0.0.1:${port}/`);
  await page.waitForFunction(() => 'kills' in globalThis);
  const found: Found = await page.evaluate((job) => (globalThis as unknown as Scope).kills.look(job), id);
  const what = `${done}: ${JSON.stringify(found)}, told as kept ${kept}, begun ${begun}`;
  // A page that was killed may have begun or kept one more than its last words say.
  if (found.faults.length > 0 || found.n < kept || found.n > begun + 1 || found.entries !== found.n) {
    bad.push(what);
    console.log(`NOT WHOLE ${what}`);
  }
  if (done % JOB_EVERY > 0) ended[found.n > kept ? 'after' : 'before'] += 1;
  kept = Math.max(kept, found.n);
  const all = await processes(page.context());
  const whole = done % WHOLE_EVERY === WHOLE_EVERY - 1;
  const first = { ...sample, id, photos: [] };
  page
    .evaluate(([job, one]) => (globalThis as unknown as Scope).kills.saveOn(job, one), [first, photo] as const)
    .catch(() => {
      // The page is killed under it.
    });
  await pause(random() * LONGEST);
  if (whole) {
    for (const { id: pid } of all) kill(pid);
    await running.context?.close().catch(() => {});
    running.context = null;
    ended.browser += 1;
  } else {
    for (const { type, id: pid } of all) if (type === 'renderer') kill(pid);
    await page.close().catch(() => {});
    ended.page += 1;
  }
  ended.saves = Math.max(ended.saves, kept);
  if (done % 100 === 99)
    console.log(`${done + 1} kills, ${((performance.now() - start) / 1000).toFixed(0)} s, ${bad.length} not whole`);
}
console.log(
  `${done} kills (${ended.page} of the page, ${ended.browser} of the whole browser), ${bad.length} not whole; ` +
    `the save told last was there ${ended.before} times, the one under way too ${ended.after} times`,
);
await running.context?.close();
server.close();
await rm(profile, { recursive: true, force: true });
process.exitCode = bad.length > 0 ? 1 : 0;
