import { existsSync } from 'node:fs';
import { defineConfig } from '@playwright/test';
import { FILM } from './camera-film';

/** Debian's Chromium, or the one named in CHROMIUM. Playwright's own download is not used. */
const executablePath = process.env.CHROMIUM || '/usr/bin/chromium';
if (!existsSync(executablePath)) throw new Error(`no Chromium at ${executablePath}: install it or set CHROMIUM`);

const PORT = Number(process.env.PAGE_PORT ?? 4179);

/** Tests that hold or tell times: beside another browser they would measure that one too. */
const TIMED = /@timed/;

/**
 * Chromium 156 loads two pages of its own into every new window, for its address bar: 1.8 s of processor time a test, as much as
 * the page's own start. Of several `--disable-features` the last counts, so that Playwright's own are named again.
 */
const FEATURES_OFF = [
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
  'AimEnabled',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsFirstBalancedModeAutoEnable',
  'HttpsUpgrades',
  'LensOverlay',
  'MediaRouter',
  'NetworkTimeServiceQuerying',
  'OptimizationHints',
  'PaintHolding',
  'PreconnectToSearch',
  'ThirdPartyStoragePartitioning',
];

export default defineConfig({
  testDir: '.',
  testMatch: '*.spec.ts',
  globalSetup: './global-setup.ts',
  // One browser at a time, unless the command line asks for more: CI runs `untimed` with two on its two cores.
  workers: 1,
  projects: [
    { name: 'untimed', grepInvert: TIMED },
    { name: 'timed', grep: TIMED },
  ],
  forbidOnly: Boolean(process.env.CI),
  timeout: 120_000,
  reporter: 'list',
  outputDir: '../../test-results',
  snapshotPathTemplate: '{testDir}/golden/{arg}{ext}',
  use: {
    baseURL: `http://127.0.0.1:${PORT}/`,
    viewport: { width: 390, height: 844 },
    permissions: ['camera'],
    // Storing 13 MB in every test would cost time; offline.spec.ts allows it.
    serviceWorkers: 'block',
    launchOptions: {
      executablePath,
      args: [
        '--no-sandbox',
        // There is no graphics processor: drawing in plain software is a fifth faster than by an imitation of one.
        '--disable-gpu',
        `--disable-features=${FEATURES_OFF.join()}`,
        '--use-fake-device-for-media-stream',
        '--use-fake-ui-for-media-stream',
        `--use-file-for-fake-video-capture=${FILM}`,
      ],
    },
    trace: 'off',
  },
  webServer: {
    command: `${process.env.BUILT ? '' : 'npx vite build --logLevel warn && '}npx vite preview --port ${PORT} --strictPort`,
    cwd: '../..',
    url: `http://127.0.0.1:${PORT}/`,
    timeout: 180_000,
    reuseExistingServer: !process.env.CI,
  },
});
