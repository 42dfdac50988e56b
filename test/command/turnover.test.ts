import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { runMerge } from '../../src/command/run-merge';
import { type ReadPhotos, runTurnover } from '../../src/command/run-turnover';
import { runVerify } from '../../src/command/run-verify';
import { tagText } from '../../src/record';
import { findings } from '../record/sample-job';

const root = mkdtempSync(join(tmpdir(), 'turnover-'));
afterAll(() => rmSync(root, { recursive: true }));
const PICTURE = readFileSync(new URL('../../sample-images/faded-red.jpg', import.meta.url)).toString('base64');

let folder = '';
let counter = 0;
let asked: string[] = [];
let said = '';
let out = '';

/** Stands in for the reading engine: one sample conductor a photo; "bad" cannot be read, "tag" holds a tag. */
const read: ReadPhotos = async (paths, _jobs, done) => {
  for (const path of paths) {
    const name = basename(path);
    asked.push(name);
    const sha256 = createHash('sha256').update(readFileSync(path)).digest('hex');
    if (name.startsWith('bad')) await done(path, { kind: 'failed', problem: 'undecodable picture' });
    else {
      const tag = name.startsWith('tag') ? tagText({ panel: 'LP9', space: 5 }) : null;
      await done(path, { kind: 'read', findings: findings(sha256), tag, picture: PICTURE });
    }
  }
};
const outlets = {
  out: (text: string): void => {
    out += text;
  },
  err: (text: string): void => {
    said += text;
  },
};
const run = (...argv: string[]) => {
  asked = [];
  said = '';
  out = '';
  return runTurnover(argv, { ...outlets, read, cores: 2, onTerminal: false, now: () => 0 });
};
const verify = async (...files: string[]): Promise<number> => {
  out = '';
  said = '';
  return await runVerify(files, outlets);
};

beforeEach(() => {
  folder = join(root, String(++counter));
  mkdirSync(join(folder, 'photos', 'north'), { recursive: true });
  for (const [name, text] of [
    ['IMG_2.jpg', 'two'],
    ['IMG_10.jpg', 'bytes of the tenth'],
    ['north/tag $(x) `y`.jpg', 'tag'],
    ['north/copy.jpg', 'two'],
    ['notes.txt', 'no picture'],
  ] as const)
    writeFileSync(join(folder, 'photos', name), text);
  writeFileSync(
    join(folder, 'schedule.csv'),
    'Board,Space,Color,Photo\nLP1,1,OG,IMG_2.jpg\nLP1,2,BK,IMG_10.jpg\nLP9,5,BK,\n,3,BK,\n',
  );
});
const args = (outFolder = 'out', ...more: string[]): string[] => [
  '--photos',
  join(folder, 'photos'),
  '--out',
  join(folder, outFolder),
  '--schedule',
  join(folder, 'schedule.csv'),
  '--by',
  'Tech One',
  ...more,
];

describe('the turnover command', () => {
  it('turns a folder and a schedule into an archive that verifies, a report and lists', async () => {
    expect(await run(...args())).toBe(0);
    expect(asked).toEqual(['IMG_2.jpg', 'IMG_10.jpg', 'tag $(x) `y`.jpg']);
    expect(said).toContain('is the same photo as');
    expect(said).toContain('Schedule, row 5: No panel is named.');
    expect(out).toContain('3 photos, 3 terminations');
    expect(readdirSync(join(folder, 'out')).sort()).toEqual([
      'conductors.csv',
      'deviations.csv',
      'record.zip',
      'report.pdf',
      'work',
    ]);
    expect(readFileSync(join(folder, 'out/report.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(await verify(join(folder, 'out/record.zip'))).toBe(0);
    expect(out).toContain('as it was written. 9 files, 1 log entries');
  });

  it('goes on where it was stopped: what was read is not read again', async () => {
    await run(...args());
    writeFileSync(join(folder, 'photos', 'IMG_3.jpg'), 'three');
    // A part that was cut off by a crash is read again.
    const parts = join(folder, 'out/work/photos');
    const cut = readdirSync(parts).find((n) => n.endsWith('.json')) as string;
    writeFileSync(join(parts, cut), readFileSync(join(parts, cut), 'utf8').slice(0, 50));
    expect(await run(...args())).toBe(0);
    expect(asked).toHaveLength(2);
    expect(asked).toContain('IMG_3.jpg');
    expect(out).toContain('4 photos');
  });

  it('a photo that cannot be read is told, stops no other, and is in the exit code', async () => {
    writeFileSync(join(folder, 'photos', 'bad.jpg'), 'bad');
    expect(await run(...args())).toBe(1);
    expect(said).toContain('bad.jpg: not read (undecodable picture)');
    expect(out).toContain('3 photos');
  });

  it('parts of an array job come together in one record that verifies', async () => {
    expect(await run(...args('a', '--part', '1/2', '--no-report'))).toBe(0);
    const first = asked;
    expect(await run(...args('b', '--part', '2/2', '--no-report'))).toBe(0);
    expect([...first, ...asked].sort()).toEqual(['IMG_10.jpg', 'IMG_2.jpg', 'tag $(x) `y`.jpg']);
    const merged = join(folder, 'all.zip');
    expect(await runMerge(['--out', merged, join(folder, 'a/record.zip'), join(folder, 'b/record.zip')], outlets)).toBe(
      0,
    );
    expect(out).toContain('all.zip: 3 photos from 2 archives.');
    expect(await verify(merged, join(folder, 'a/record.zip'))).toBe(0);
    // Twin: one byte of one part changed, and nothing is merged.
    const bytes = readFileSync(join(folder, 'b/record.zip'));
    bytes.write('BYTES', bytes.indexOf('bytes of the tenth'));
    writeFileSync(join(folder, 'b/record.zip'), bytes);
    expect(await runMerge(['--out', join(folder, 'no.zip'), join(folder, 'b/record.zip')], outlets)).toBe(1);
    expect(readdirSync(folder)).not.toContain('no.zip');
    expect(await verify(join(folder, 'b/record.zip'))).toBe(1);
  });

  it('names wrong arguments and writes nothing', async () => {
    for (const argv of [
      [],
      ['--photos', 'x'],
      ['--photos', join(folder, 'none'), '--out', join(folder, 'out')],
      args('out', '--jobs', '0'),
      args('out', '--part', '3/2'),
      args('out', '--column', 'panel=Nothing'),
      args('out', '--column', 'colour=Board'),
      args('out', '--unknown'),
    ])
      expect(await run(...argv), argv.join(' ')).toBe(2);
    expect(await verify()).toBe(2);
    expect(await verify(join(folder, 'none.zip'))).toBe(1);
    expect(said).toContain('ENOENT');
  });

  it('reads a schedule of other headings by --column', async () => {
    writeFileSync(join(folder, 'schedule.csv'), 'Where;No.;Insul.;Shot\nLP1;1;OG;IMG_2.jpg\n');
    const columns = ['panel=Where', 'space=No.', 'color=Insul.', 'photo=Shot'].flatMap((c) => ['--column', c]);
    expect(await run(...args('out', ...columns))).toBe(0);
    expect(out).toContain('1 terminations');
  });
});
