import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { EMPTY_TURNOVER, type Job, type Message } from '../../../src/flow';
import { loadReport, nextEntry, type Standings, viewTurnover } from '../../../src/record';
import { say } from '../../../src/words';
import { sampleJob } from '../sample-job';

/** Poppler reads the report as a stranger would. Without it only what needs no reader is checked. */
const POPPLER = spawnSync('pdfinfo', ['-v']).error === undefined;
if (!POPPLER) console.warn('poppler-utils is not installed: the checks of the PDF by another reader are skipped');

const folder = mkdtempSync(join(tmpdir(), 'report-'));
afterAll(() => rmSync(folder, { recursive: true }));
const SCENE = readFileSync(new URL('../../../sample-images/gutter-208y120.jpg', import.meta.url));

async function turnover(photos: number): Promise<Job> {
  const job = await sampleJob();
  const [photo] = job.photos;
  if (!photo) throw new Error('the sample has a photo');
  const said = { by: 'Tech One', at: '2026-03-04T06:00:00Z' };
  return {
    ...job,
    title: 'Invented turnover Ω 漢',
    photos: Array.from({ length: photos }, (_, k) => ({ ...photo, id: `p${k}` })),
    turnover: {
      ...EMPTY_TURNOVER,
      lines: Array.from({ length: 40 }, (_, k) => ({
        id: `s${k}`,
        row: k + 2,
        cells: { panel: 'LP1', space: String(k + 1), color: 'BK', load: '<b>=1+1</b>', torque: '35 in-lb' },
        other: {},
      })),
      places: [{ photo: 'p0', panel: 'LP1', termination: 's0:1', how: 'by hand', ...said }],
      entries: {
        's0:1': {
          sightings: [{ photo: 'p0', conductor: 'c1', ...said }],
          torque: { value: 35, unit: 'lbf·in', tool: 'T-77', ...said },
        },
      },
      handled: {
        's1:1:missing': { assigned: { to: 'Crew B', ...said }, comments: [{ text: 'behind the gutter', ...said }] },
      },
      signatures: [
        {
          capacity: 'Inspector',
          covers: '0'.repeat(64),
          strokes: [
            [
              [0, 0.2],
              [0.5, 0.9],
              [1, 0.1],
            ],
          ],
          ...said,
        },
      ],
    },
  };
}

async function printed(job: Job, standings: Standings = new Map()): Promise<string> {
  const { makeReport } = await loadReport();
  const { readable, writable } = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>();
  const whole = new Response(readable).bytes();
  const input = {
    title: job.title,
    by: job.by,
    demo: job.demo,
    madeAt: '2026-03-04T07:00:00Z',
    view: viewTurnover(job, standings),
    log: [await nextEntry(undefined, job, '2026-03-04T07:00:00Z', [])],
    photos: job.photos.map((p) => p.id),
    same: job.same ?? [],
    photo: async (id: string) => job.photos.find((p) => p.id === id) as Job['photos'][number],
    picture: async () => SCENE,
    standings,
    say: (m: Message) => say(m),
    locale: 'en',
  };
  await makeReport(input, writable);
  const bytes = await whole;
  const path = join(folder, `${createHash('sha256').update(bytes).digest('hex')}.pdf`);
  writeFileSync(path, bytes);
  return path;
}
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8' });

describe.skipIf(!POPPLER)('the report, read by poppler', () => {
  it('says what was said of conductors beside others, and says nothing where nothing was (twin)', async () => {
    const job = await turnover(2);
    const said = { by: 'Invented Tester', at: '2026-03-04T06:30:00Z' };
    const together = {
      best: 'orange',
      confidence: 0.9,
      candidates: [],
      set: ['orange', 'red'],
      contradicting: false,
    } as const;
    const sightings = ['p0', 'p1'].map((photo) => ({ photo, conductor: 'c1' }));
    const [first, second] = job.photos;
    const compared = { ...first!, comparisons: [{ conductors: ['c1', 'c2'], log10Ratio: -2.345, ...said }] as const };
    const text = tool(
      'pdftotext',
      await printed({ ...job, photos: [compared, second!], same: [{ id: 's', sightings, together, ...said }] }),
      '-',
    ).replace(/\s+/g, ' ');
    expect(text).toContain('Conductor 1 is also on photo 2, Invented Tester says');
    expect(text).toContain('Conductor 1 is also on photo 1, Invented Tester says');
    expect(text).toContain('orange / red');
    expect(text).toContain('-2.3');
    expect(tool('pdftotext', await printed(job), '-')).not.toContain('is also on photo');
  });
  it('has every page numbered, and its title', async () => {
    const path = await printed(await turnover(3));
    const info = tool('pdfinfo', path);
    const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    expect(pages).toBeGreaterThan(5);
    expect(info).toContain('Invented turnover');
    const text = tool('pdftotext', '-layout', path, '-');
    for (let k = 1; k <= pages; k++) expect(text).toContain(`Page ${k} of ${pages}`);
    expect(text.split('the meter is the proof')).toHaveLength(pages + 1);
  });

  it('says what was expected, seen, entered, handled and signed', async () => {
    const text = tool('pdftotext', '-layout', await printed(await turnover(1)), '-').replaceAll(/\s+/g, ' ');
    for (const part of [
      'T-77',
      'Crew B',
      'behind the',
      'Inspector',
      'by color',
      'No photo of this',
      '<b>=1+1</b>',
      'No entry of the log has this hash',
      '(U+6F22)',
      'Invented example',
    ])
      expect(text, part).toContain(part);
  });

  it('prints a comment longer than a page to its end', async () => {
    const job = await turnover(1);
    const said = { by: 'Tech One', at: '2026-03-04T06:00:00Z' };
    const text = `${'a long story '.repeat(800)}with its end`;
    const handled = { 's1:1:missing': { comments: [{ text, ...said }] } };
    const long: Job = { ...job, turnover: { ...EMPTY_TURNOVER, ...job.turnover, handled } };
    const printedText = tool('pdftotext', await printed(long), '-').replaceAll(/\s+/g, ' ');
    expect(printedText.match(/\bstory\b/g)?.length).toBe(800);
    expect(printedText).toContain('with its end');
  });

  it('holds one picture a photo, in full', async () => {
    const job = await turnover(3);
    const images = tool('pdfimages', '-list', await printed(job))
      .trim()
      .split('\n')
      .slice(2);
    expect(images).toHaveLength(3);
    for (const image of images) expect(image).toMatch(/\b1200\s+1200\b/);
    const none = { ...job, photos: [] };
    expect(
      tool('pdfimages', '-list', await printed(none))
        .trim()
        .split('\n')
        .slice(2),
    ).toHaveLength(0);
  });

  it('shows no standing but the three, and metered only where it was given (twin)', async () => {
    const job = await turnover(1);
    const verdict = { conductor: 'c1', standing: 'metered' as const, missing: [], agree: [], contradict: [] };
    const count = (path: string): number => tool('pdftotext', '-layout', path, '-').match(/\bmetered\b/g)?.length ?? 0;
    // Once in the sentence that explains the words; then in the list of terminations and under the photo.
    expect(count(await printed(job))).toBe(1);
    expect(count(await printed(job, new Map([['p0', [verdict]]])))).toBe(3);
  });

  it('claims nothing', async () => {
    const text = tool('pdftotext', await printed(await turnover(2)), '-');
    expect(text).not.toMatch(/\b(?:safe|dead|de-energized|identified)\b/i);
  });
});
