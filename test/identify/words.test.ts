import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROLES } from '../../src/flow';
import { roleLabel, SYSTEMS, systemName } from '../../src/identify';
import { IDENTIFY_WORDS } from '../../src/words/en/identify';

const WORDS: Readonly<Record<string, string>> = IDENTIFY_WORDS;
const ROOT = 'src/identify';
const files = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((f) =>
    f.isDirectory() ? files(join(folder, f.name)) : f.name.endsWith('.ts') ? [join(folder, f.name)] : [],
  );
const TEXT = files(ROOT)
  .map((f) => readFileSync(f, 'utf8'))
  .join('\n');

/** Codes written out in the source: whole ones, and those built by `finding(...)` and `conflict(...)`. */
const USED = [
  ...[...TEXT.matchAll(/'(identify\.[\w.-]+)'/g)].map((m) => m[1]!),
  ...[...TEXT.matchAll(/\b(?:finding|conflict)\(\s*'([\w-]+)'/g)].map((m) => `identify.finding.${m[1]}`),
];

describe('words of this room', () => {
  it.each([...new Set(USED)])('%s has a sentence', (code) => {
    const found = WORDS[code] ?? WORDS[`${code}-1`];
    expect(found).toBeTruthy();
    if (WORDS[code] === undefined) {
      for (const n of [2, 3]) expect(WORDS[`${code}-${n}`], `${code}-${n}`).toBeTruthy();
    }
  });
  it('twin: a code nobody wrote has none', () => {
    expect(WORDS['identify.finding.no-such-thing']).toBeUndefined();
  });
  it('finds the codes it looks for', () => {
    expect(USED.length).toBeGreaterThan(40);
  });
  it.each(['swapped', 'repeated', 'rolled'])('a panel fault (%s) has a sentence', (kind) => {
    expect(WORDS[`identify.finding.panel-${kind}`]).toBeTruthy();
  });
  it.each(['circuit', 'cable', 'tag', 'breaker'])('a group (%s) has a sentence', (kind) => {
    expect(WORDS[`identify.because.group-${kind}`]).toBeTruthy();
  });
  it('names every system and role', () => {
    for (const id of [...Object.keys(SYSTEMS), 'unknown']) expect(WORDS[systemName(id).code], id).toBeTruthy();
    for (const role of ROLES) expect(WORDS[roleLabel(role).code], role).toBeTruthy();
  });
  it('never calls a conductor safe, dead or identified', () => {
    for (const [code, words] of Object.entries(IDENTIFY_WORDS)) {
      expect(words, code).not.toMatch(/\b(is|are) (safe|dead|identified|de-energized)\b/i);
    }
  });
});
