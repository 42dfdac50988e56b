import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise, type IConfiguration, type ICruiseOptions, type ICruiseResult } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';

const rules = createRequire(import.meta.url)('../../.dependency-cruiser.cjs') as IConfiguration;

async function report(baseDir: string): Promise<ICruiseResult> {
  const { tsConfig: _paths, ...options } = rules.options as ICruiseOptions & { tsConfig?: unknown };
  const { output } = await cruise(['src'], { ...options, baseDir, ruleSet: rules, validate: true } as ICruiseOptions);
  return output as ICruiseResult;
}

/** Runs the rules over a house made of these files. */
async function broken(files: Readonly<Record<string, string>>): Promise<string[]> {
  const house = mkdtempSync(join(tmpdir(), 'house-'));
  try {
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(dirname(join(house, name)), { recursive: true });
      writeFileSync(join(house, name), text);
    }
    return (await report(house)).summary.violations.map((v) => v.rule.name);
  } finally {
    rmSync(house, { recursive: true });
  }
}

describe('the arrows of the house', () => {
  // With a TypeScript it cannot drive, the checker reads no file and finds nothing wrong.
  it('are checked over every room', async () => {
    const { modules, summary } = await report('.');
    const rooms = new Set(modules.map((m) => /^src\/([^/]+)\//.exec(m.source)?.[1]));
    for (const room of ['flow', 'words', 'color', 'photo', 'vision', 'identify', 'record', 'command'])
      expect(rooms).toContain(room);
    expect(summary.violations.map((v) => `${v.rule.name}: ${v.from} -> ${v.to}`)).toEqual([]);
  });

  it('fail for an import up the flow, one past the front door, and a package in a pure core (twins)', async () => {
    const index = { 'src/color/index.ts': 'export const x = 1;\n', 'src/color/inner.ts': 'export const y = 1;\n' };
    expect(await broken({ ...index, 'src/flow/a.ts': "import { x } from '../color';\nconsole.log(x);\n" })).toContain(
      'arrow-flow',
    );
    expect(
      await broken({
        ...index,
        'src/photo/a.ts': "import type { y } from '../color/inner';\nexport type Y = typeof y;\n",
      }),
    ).toContain('front-door');
    expect(
      await broken({ 'src/color/a.ts': "import { readFileSync } from 'node:fs';\nreadFileSync('x');\n" }),
    ).toContain('pure-cores');
  });
});

describe('the rooms of the house', () => {
  const folders = (house: string): string[] =>
    readdirSync(house, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => join(entry.parentPath, entry.name));
  const bare = (house: string): string[] => folders(house).filter((folder) => !existsSync(join(folder, 'README.md')));

  it('each say what they are in a README', () => {
    expect(folders('src').length).toBeGreaterThan(40);
    expect(bare('src')).toEqual([]);
  });

  it('twin: one without is found', () => {
    const house = mkdtempSync(join(tmpdir(), 'house-'));
    try {
      mkdirSync(join(house, 'told'));
      writeFileSync(join(house, 'told', 'README.md'), '# told');
      mkdirSync(join(house, 'told', 'silent'));
      expect(bare(house)).toEqual([join(house, 'told', 'silent')]);
    } finally {
      rmSync(house, { recursive: true });
    }
  });
});
