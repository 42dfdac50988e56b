import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { noticesText, type PackageNotice } from './notices-text';

/**
 * Writes THIRD-PARTY-NOTICES.md from the production packages that are installed, or with --check fails when the
 * file is not what would be written.
 */
const ROOT = new URL('../../', import.meta.url);
const TARGET = new URL('THIRD-PARTY-NOTICES.md', ROOT);

interface Found {
  readonly licenses: string | readonly string[];
  readonly licenseFile?: string;
}

/** Prebuilt binaries of one machine; on another machine others are installed, so that they are named once, by family. */
const MACHINE_BOUND = /^(@img\/sharp|@esbuild\/|@typescript\/typescript-|fsevents$)/;

async function installed(): Promise<PackageNotice[]> {
  const checker = new URL('node_modules/license-checker-rseidelsohn/bin/license-checker-rseidelsohn.js', ROOT);
  const { stdout } = await promisify(execFile)(
    process.execPath,
    [checker.pathname, '--production', '--json', '--excludePrivatePackages'],
    { cwd: ROOT, maxBuffer: 64 * 2 ** 20 },
  );
  const found = Object.entries(JSON.parse(stdout) as Record<string, Found>).map(([id, about]) => {
    const at = id.lastIndexOf('@');
    return { ...about, name: id.slice(0, at), version: id.slice(at + 1) };
  });
  return Promise.all(
    found
      .filter(({ name }) => !MACHINE_BOUND.test(name))
      .map(async ({ name, version, licenses, licenseFile }) => ({
        name,
        version,
        licence: [licenses].flat().join(', '),
        text: licenseFile && /licen[cs]e|copying|notice/i.test(licenseFile) ? await readFile(licenseFile, 'utf8') : '',
      })),
  );
}

const text = noticesText(await installed());
if (process.argv.includes('--check')) {
  const kept = await readFile(TARGET, 'utf8').catch(() => '');
  if (kept !== text) {
    console.error('THIRD-PARTY-NOTICES.md is out of date: run npm run notices and commit it.');
    process.exitCode = 1;
  }
} else await writeFile(TARGET, text);
