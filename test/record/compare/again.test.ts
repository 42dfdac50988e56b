import { describe, expect, it } from 'vitest';
import { EMPTY_TURNOVER, type Job, type ScheduleLine, type Turnover } from '../../../src/flow';
import { type Standings, type TurnoverView, viewTurnover } from '../../../src/record';
import { pick, seeded } from '../../hard/random';
import { conductor, sampleJob } from '../sample-job';

const SAID = { by: 'Tech One', at: '2026-03-04T06:00:00Z' };
const cells = { panel: 'LP1', system: '480Y/277', color: 'OG', torque: '5 N·m' };
const LINES = Array.from(
  { length: 12 },
  (_, k): ScheduleLine => ({ id: `s${k}`, row: k + 2, cells: { ...cells, space: String(k + 1) }, other: {} }),
);

async function start(): Promise<Job> {
  const base = await sampleJob();
  const [photo] = base.photos;
  if (!photo) throw new Error('the sample has a photo');
  const conductors = ['c1', 'c2', 'c3'].map((id) => conductor(id));
  const photos = ['p1', 'p2'].map((id) => ({ ...photo, id, findings: { ...photo.findings, conductors } }));
  return { ...base, photos, turnover: { ...EMPTY_TURNOVER, lines: LINES } };
}

/** One change of a kind that a user can make. */
function change(job: Job, random: () => number): Job {
  const turnover: Turnover = job.turnover ?? EMPTY_TURNOVER;
  const id = `${pick(random, LINES).id}:1`;
  const entry = turnover.entries[id] ?? {};
  const photo = pick(random, ['p1', 'p2']);
  const enter = (more: object): Job => ({
    ...job,
    turnover: { ...turnover, entries: { ...turnover.entries, [id]: { ...entry, ...more } } },
  });
  const kinds = [
    () => enter({ witness: { seen: random() < 0.5, ...SAID } }),
    () => enter({ torque: { value: 5 + Math.round(random() * 2), unit: 'N·m', tool: '', ...SAID } }),
    () => enter({ sightings: [...(entry.sightings ?? []), { photo, conductor: pick(random, ['c1', 'c2']), ...SAID }] }),
    () => {
      const place = {
        photo,
        panel: 'LP1',
        how: 'by hand' as const,
        ...SAID,
        ...(random() < 0.7 && { termination: id }),
      };
      return { ...job, turnover: { ...turnover, places: [...turnover.places, place] } };
    },
    () => {
      const k = Math.floor(random() * turnover.lines.length);
      const lines = turnover.lines.map((line, at) =>
        at === k ? { ...line, cells: { ...line.cells, color: pick(random, ['OG', 'BN', 'plaid']) } } : line,
      );
      return { ...job, turnover: { ...turnover, lines } };
    },
    () => ({
      ...job,
      photos: job.photos.map((p) =>
        p.id === photo ? { ...p, words: { c1: { name: pick(random, ['brown', 'orange'] as const), ...SAID } } } : p,
      ),
    }),
  ];
  return pick(random, kinds)();
}

const standings = (random: () => number): Standings => {
  const standing = pick(random, ['by color', 'metered', 'disputed'] as const);
  return new Map([['p1', [{ conductor: 'c1', standing, agree: [], contradict: [], missing: [] }]]]);
};

/** Worked out with nothing of before: of copies of all objects. */
const anew = (job: Job, said: Standings): TurnoverView => viewTurnover(structuredClone(job), said);

describe('a turnover compared again after each change', () => {
  it('is what it would be from nothing, through 200 changes', async () => {
    const random = seeded(8);
    let job = await start();
    const before: Job[] = [];
    let said: Standings = new Map();
    for (let k = 0; k < 200; k++) {
      if (random() < 0.1) said = standings(random);
      before.push(job);
      // Undone now and then: to a state of up to ten changes ago.
      job = random() < 0.15 ? pick(random, before.slice(-10)) : change(job, random);
      expect(viewTurnover(job, said)).toEqual(anew(job, said));
    }
  });

  it('finds the same objects but for what was changed', async () => {
    const job = await start();
    const first = viewTurnover(job);
    const turnover: Turnover = {
      ...(job.turnover ?? EMPTY_TURNOVER),
      entries: {
        's3:1': { sightings: [{ photo: 'p1', conductor: 'c1', ...SAID }], witness: { seen: false, ...SAID } },
      },
    };
    const next = viewTurnover({ ...job, turnover });
    const other = next.compared.filter((c, k) => c !== first.compared[k]).map((c) => c.termination.id);
    expect(other).toEqual(['s3:1']);
    // Twin: of copies nothing is known.
    expect(anew({ ...job, turnover }, new Map()).compared.some((c, k) => c === first.compared[k])).toBe(false);
  });
});
