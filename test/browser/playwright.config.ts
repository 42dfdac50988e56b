import { existsSync } from 'node:fs';
import { defineConfig } from '@playwright/test';
import { FILM } from './camera-film';

/** Debian's Chromium, or the one named in CHROMIUM. Playwright's own download is not used. */
const executablePath = process.env.CHROMIUM || '/usr/bin/chromium';
if (!existsSync(executablePath)) throw new Error(`no Chromium at ${executablePath}: install it or set CHROMIUM`);

const PORT = Number(process.env.PAGE_PORT ?? 4179);

/** Tests that hold or tell times: beside another browser they would measure that one too. */
const TIMED = /@timed/;

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
