import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { createServer, type ViteDevServer } from 'vite';
import type { Engine } from './engine-harness';
import { SCENE } from './scene';

/** What the network needs of graphics without a graphics processor: ANGLE and WebGPU on SwiftShader, an imitation in software. */
const SOFTWARE_GPU = [
  '--no-sandbox',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--enable-unsafe-webgpu',
  '--use-webgpu-adapter=swiftshader',
];

let server: ViteDevServer;
let address: string;

test.use({ launchOptions: { executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: SOFTWARE_GPU } });

test.beforeAll(async () => {
  const tfjs = ['core', 'backend-wasm', 'backend-webgl', 'backend-webgpu'].map((part) => `@tensorflow/tfjs-${part}`);
  server = await createServer({
    configFile: false,
    cacheDir: 'node_modules/.vite-engine-specs',
    optimizeDeps: { include: [...tfjs, 'exifr', 'valibot', 'culori/fn', 'culori'], entries: [], noDiscovery: true },
    server: { host: '127.0.0.1', port: 5281, hmr: false },
    worker: { format: 'es' },
    logLevel: 'error',
  });
  await server.listen();
  address = new URL('test/browser/engine-harness.html', server.resolvedUrls?.local[0]).href;
});
test.afterAll(async () => {
  await server.close();
});

const open = async (page: Page): Promise<void> => {
  await page.goto(address);
  await page.waitForFunction(() => 'engine' in globalThis);
};
const backend = (page: Page, name: 'wasm' | 'webgl' | 'webgpu') =>
  page.evaluate((which) => (globalThis as unknown as { engine: Engine }).engine.backend(which), name);

test('WebGL computes the stored answer, and the same planes as wasm', async ({ page }) => {
  test.setTimeout(400_000);
  await open(page);
  const wasm = await backend(page, 'wasm');
  await open(page);
  const webgl = await backend(page, 'webgl');
  console.log(JSON.stringify([wasm, webgl]));
  expect(wasm.problem).toBeUndefined();
  expect(webgl.problem).toBeUndefined();
  expect(webgl.name).toMatch(/ on webgl$/);
  expect(wasm.wire).toBeGreaterThan(0.05);
  expect(Math.abs(webgl.wire / wasm.wire - 1)).toBeLessThan(0.02);
  expect(Math.abs(webgl.halfWidth / wasm.halfWidth - 1)).toBeLessThan(0.02);
});

for (const [api, name, tag] of [
  ['WebGL', 'webgl', ''],
  ['WebGPU', 'webgpu', ' @slow'],
] as const)
  test(`a ${api} that is lost is told as a fault and never as a photo without conductors; a fresh engine reads on${tag}`, async ({
    page,
  }) => {
    test.setTimeout(100_000);
    await open(page);
    const report = await page.evaluate(
      (which) => (globalThis as unknown as { engine: Engine }).engine.lost(which),
      name,
    );
    expect(report).toMatchObject({ during: 'engine failed', after: 'engine failed' });
    expect(report.fresh).toBeGreaterThan(0.05);
  });

test('WebGPU that is not there is refused in words, not by nonsense', async ({ page }) => {
  await page.addInitScript(() => Object.defineProperty(Navigator.prototype, 'gpu', { get: () => undefined }));
  await open(page);
  expect((await backend(page, 'webgpu')).problem).toContain('webgpu');
});

for (const [what, width, height] of [
  ['1200 px', 1200, 900],
  ['12 megapixels', 4000, 3000],
] as const)
  test(`the product's worker takes wasm on an imitated graphics processor; time per stage at ${what}`, async ({
    page,
  }) => {
    test.setTimeout(300_000);
    await open(page);
    const photo = await sharp(SCENE.path).resize(width, height, { fit: 'cover' }).jpeg({ quality: 92 }).toBuffer();
    const report = await page.evaluate(
      (data) => (globalThis as unknown as { engine: Engine }).engine.inspect(data),
      photo.toString('base64'),
    );
    console.log(what, JSON.stringify(report));
    expect(report.segmenter).toMatch(/^network .+ on wasm$/);
  });
