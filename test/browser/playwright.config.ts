import { existsSync } from 'node:fs';
import { defineConfig } from '@playwright/test';

/** Debian's Chromium, or the one named in CHROMIUM. Playwright's own download is not used. */
const executablePath = process.env.CHROMIUM || '/usr/bin/chromium';
if (!existsSync(executablePath)) throw new Error(`no Chromium at ${executablePath}: install it or set CHROMIUM`);

export default defineConfig({
  testDir: '.',
  testMatch: '*.spec.ts',
  // Two cores: one browser at a time, or the times in the tests mean nothing.
  workers: 1,
  forbidOnly: Boolean(process.env.CI),
  timeout: 60_000,
  reporter: 'list',
  outputDir: '../../test-results',
  use: { launchOptions: { executablePath, args: ['--no-sandbox'] }, trace: 'off' },
});
