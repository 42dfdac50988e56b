import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runInspect } from '../../src/command/run-inspect';
import { stubEngine } from './stub-engine';

let folder = '';
const path = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'inspect-'));
  for (const name of ['one.jpg', 'two.jpg', 'bad.jpg', 'crash.jpg']) writeFileSync(path(name), 'x');
  const images = [
    {
      file: 'two.jpg',
      points: [
        { x: 10, y: 20, color: 'red' },
        { x: 9999, y: 1, color: 'blue' },
      ],
    },
    { file: 'one.jpg' },
  ];
  writeFileSync(path('index.json'), JSON.stringify({ note: 'labels', images }));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...argv: string[]): Promise<{ code: number; out: string; err: string; log: string[] }> {
  let out = '';
  let err = '';
  const log: string[] = [];
  const code = await runInspect(argv, stubEngine(log), {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  });
  return { code, out, err, log };
}
const lines = (out: string): Record<string, unknown>[] =>
  out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe('inspect --json', () => {
  it('prints one line a photo in the order given, as the scoring README defines it', async () => {
    const { code, out, err } = await run('--json', path('two.jpg'), path('one.jpg'));
    expect(code).toBe(0);
    const [first, second] = lines(out);
    expect([first?.photo, second?.photo]).toEqual(['two.jpg', 'one.jpg']);
    expect(Object.keys(first ?? {})).toEqual([
      'photo',
      'width',
      'height',
      'elapsedMs',
      'capture',
      'light',
      'conductors',
    ]);
    expect(err).toContain('1 of 2');
  });

  it('gives coordinates and widths in full-size pixels, colors and roles with probabilities', async () => {
    const { out } = await run('--json', path('one.jpg'));
    const [line] = lines(out);
    expect(line).toMatchObject({ width: 1600, height: 1200, light: { xy: [0.33, 0.34], errorDeg: 4 } });
    expect((line?.conductors as unknown[] | undefined)?.[0]).toEqual({
      id: 'c1',
      covering: 'insulated',
      outlines: [
        [
          [2, 4],
          [6, 9],
          [10, 12],
        ],
      ],
      centerline: [
        [2, 4],
        [10, 12],
      ],
      widthPx: 24.5,
      insulation: {
        best: 'orange',
        confidence: 0.61,
        candidates: [
          { name: 'orange', probability: 0.61 },
          { name: 'brown', probability: 0.3 },
        ],
        set: ['orange', 'brown'],
        lab: [60.1, 40.2, 0],
      },
      stripe: { name: 'white', confidence: 0.8, layout: 'spiral' },
      hiddenStripe: 0.2,
      tape: [{ name: 'blue', confidence: 0.7, at: [6, 6] }],
      roles: [{ system: 'us-480y277', role: 'phase B', probability: 0.7 }],
    });
  });

  it('answers probes only where somebody pointed', async () => {
    const { out } = await run('--json', '--at', '4,6', '8,8', path('one.jpg'));
    const [line] = lines(out);
    expect(line?.probes).toMatchObject([
      { x: 4, y: 6, conductor: { id: 'c1', roles: [{ role: 'phase B' }] } },
      { x: 8, y: 8, conductor: null },
    ]);
  });

  it('probes the points of an index, beside it, in its order, and warns of a point outside', async () => {
    const { out, err, code } = await run('--json', '--points', path('index.json'));
    const [first, second] = lines(out);
    expect(code).toBe(0);
    expect(first?.photo).toBe('two.jpg');
    expect((first?.probes as unknown[] | undefined)?.length).toBe(2);
    expect(second?.probes).toEqual([]);
    expect(err).toContain('9999,1 is outside');
  });

  it('reads only the files named when an index is given too', async () => {
    const { out } = await run('--json', '--points', path('index.json'), path('two.jpg'));
    expect(lines(out)).toHaveLength(1);
    expect((lines(out)[0]?.probes as unknown[] | undefined)?.length).toBe(2);
  });

  it('never stops at a bad file, keeps its place, says why, and fails at the end', async () => {
    const { code, out, err } = await run('--json', path('bad.jpg'), path('none.jpg'), path('one.jpg'));
    expect(code).toBe(1);
    expect(lines(out).map((l) => [l.photo, (l.problem as { kind?: string } | undefined)?.kind])).toEqual([
      ['bad.jpg', 'truncated picture'],
      ['none.jpg', 'bad argument'],
      ['one.jpg', undefined],
    ]);
    expect(err).toContain('cut off');
    expect(err).toContain('ENOENT');
    expect(err).toContain('2 of 3');
  });

  it('opens a fresh engine after a fault and closes each', async () => {
    const { code, log } = await run('--json', path('crash.jpg'), path('one.jpg'));
    expect([code, log]).toEqual([1, ['open', 'dispose', 'open', 'dispose']]);
  });
});

describe('inspect for a person', () => {
  it('shows every color that cannot be ruled out, never proof, and says what to do', async () => {
    const { out } = await run('--at', '4,6', path('one.jpg'));
    expect(out).toContain('orange or brown');
    expect(out).toContain('may be (not proved)');
    expect(out).toContain('480Y/277 V');
    expect(out).toContain('The photo is soft');
    expect(out).toContain('the meter is the proof');
    expect(out).not.toMatch(/command\.|identify\.system|\{\w+\}/);
    expect(out).not.toMatch(/\bsafe\b|\bdead\b(?!\.)/);
  });

  it('helps, and tells wrong arguments from bad photos', async () => {
    expect((await run('--help')).code).toBe(0);
    const wrong = await run('--at', 'x', path('one.jpg'));
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toContain('x is not a point');
    expect((await run('--points', path('one.jpg'))).code).toBe(2);
  });
});
