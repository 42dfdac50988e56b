import { describe, expect, it } from 'vitest';
import {
  EMPTY_TURNOVER,
  type Job,
  type NamedConductor,
  type PhotoPlace,
  type ScheduleLine,
  type Termination,
  type Turnover,
} from '../../../src/flow';
import {
  changesBetween,
  deviationTable,
  nextWithoutPhoto,
  pairInOrder,
  readTag,
  type Standings,
  sideBySide,
  sightingOf,
  tagText,
  terminationsAt,
  viewTurnover,
} from '../../../src/record';
import { conductor, sampleJob } from '../sample-job';

const SAID = { by: 'Tech One', at: '2026-03-04T06:00:00Z' };
const line = (cells: ScheduleLine['cells']): ScheduleLine => ({ id: 's2', row: 2, cells, other: {} });
const plain = (name: 'orange' | 'brown' | 'red', set = [name]): NamedConductor => {
  const base = conductor('c1');
  return { ...base, stripe: null, tape: [], insulation: { ...base.insulation, best: name, set } };
};

async function job(
  cells: ScheduleLine['cells'],
  conductors: readonly NamedConductor[],
  turnover: Partial<Turnover> = {},
): Promise<Job> {
  const base = await sampleJob();
  const [photo] = base.photos;
  if (!photo) throw new Error('the sample has a photo');
  const findings = { ...photo.findings, conductors, map: { ...photo.findings.map, findings: [] } };
  return {
    ...base,
    photos: [{ ...photo, words: {}, findings }],
    turnover: { ...EMPTY_TURNOVER, lines: [line(cells)], ...turnover },
  };
}
const here: readonly PhotoPlace[] = [{ photo: 'p1', panel: 'LP1', termination: 's2:1', how: 'by hand', ...SAID }];
const OG = { panel: 'LP1', space: '3', system: '480Y/277', color: 'OG' };

const only = async (...args: Parameters<typeof job>) => {
  const compared = viewTurnover(await job(...args)).compared[0];
  return [compared?.comparison, compared?.because.code.replace('record.compare.', '')];
};

describe('expected against seen', () => {
  it('is a match only when no other color can be meant', async () => {
    expect(await only(OG, [plain('orange')], { places: here })).toEqual(['match', 'match']);
    expect(await only(OG, [plain('orange', ['orange', 'brown'])], { places: here })).toEqual([
      'cannot tell',
      'several',
    ]);
    expect(await only(OG, [plain('red')], { places: here })).toEqual(['differs', 'differs']);
    expect(await only(OG, [plain('orange')])).toEqual(['missing', 'no-photo']);
    expect(await only({ ...OG, color: '' }, [plain('orange')], { places: here })).toEqual([
      'cannot tell',
      'no-color-expected',
    ]);
    expect(await only(OG, [], { places: here })).toEqual(['cannot tell', 'none-found']);
  });

  it('never picks the conductor that fits: several in the photo wait for a word', async () => {
    const two = [plain('orange'), { ...plain('red'), id: 'c2' }];
    expect(await only(OG, two, { places: here })).toEqual(['cannot tell', 'point-at-it']);
    const sightings = [{ photo: 'p1', conductor: 'c2', ...SAID }];
    expect(await only(OG, two, { places: here, entries: { 's2:1': { sightings } } })).toEqual(['differs', 'differs']);
    const after = [...sightings, { photo: 'p1', conductor: 'c1', ...SAID }];
    expect(await only(OG, two, { places: here, entries: { 's2:1': { sightings: after } } })).toEqual([
      'match',
      'match',
    ]);
  });

  it('asks for the stripe, and takes an unseen one for nothing', async () => {
    const striped = { ...plain('orange'), stripe: { name: 'white', confidence: 0.9, layout: 'along' } as const };
    const faint = { ...striped, stripe: { ...striped.stripe, confidence: 0.5 } };
    const WANTED = { ...OG, color: 'OG/WH' };
    expect(await only(WANTED, [striped], { places: here })).toEqual(['match', 'match']);
    expect(await only(WANTED, [plain('orange')], { places: here })).toEqual(['cannot tell', 'stripe-not-seen']);
    expect(await only(OG, [striped], { places: here })).toEqual(['differs', 'stripe-differs']);
    expect(await only(OG, [faint], { places: here })).toEqual(['cannot tell', 'stripe-unsure']);
  });

  it('keeps tape and insulation apart', async () => {
    const taped: NamedConductor = { ...plain('red'), tape: [{ name: 'orange', confidence: 0.9, at: [1, 1] }] };
    expect(await only(OG, [taped], { places: here })).toEqual(['cannot tell', 'taped']);
  });
});

describe('deviations', () => {
  const codes = async (j: Job, standings?: Standings) =>
    viewTurnover(j, standings).deviations.map((d) => `${d.severity} ${d.code}`);

  it('a match by color still lacks its readings; metered it does not', async () => {
    const j = await job(OG, [plain('orange')], { places: here });
    expect(await codes(j)).toEqual(['warning no-reading']);
    const verdict = { conductor: 'c1', missing: [], agree: [], contradict: [] };
    expect(await codes(j, new Map([['p1', [{ ...verdict, standing: 'metered' }]]]))).toEqual([]);
    expect(await codes(j, new Map([['p1', [{ ...verdict, standing: 'disputed' }]]]))).toEqual(['danger disputed']);
  });

  it('the phase of a space: row 2 of a three-phase board is B (panel-phase-pattern us-3ph, read)', async () => {
    expect(await codes(await job({ ...OG, phase: 'B' }, [plain('orange')], { places: here }))).toEqual([
      'warning no-reading',
    ]);
    expect(await codes(await job({ ...OG, phase: 'C' }, [plain('orange')], { places: here }))).toEqual([
      'violation phase',
      'warning no-reading',
    ]);
  });

  it('the phase of a space as the board is numbered: straight down, space 3 is C', async () => {
    const j = await job({ ...OG, phase: 'C' }, [plain('orange')], { places: here });
    const down = { ...j, site: { ...j.site, board: { order: 'down' as const } } };
    expect(await codes(down)).toEqual(['warning no-reading']);
    // Asked again without it, what was worked out with it is not taken.
    expect(await codes(j)).toEqual(['violation phase', 'warning no-reading']);
  });

  it('torque asked for and not entered, entered in another unit, and entered wrongly', async () => {
    const WITH = { ...OG, torque: '35 in-lb' };
    const given = (value: number, unit: 'N·m' | 'lbf·in') => ({
      entries: { 's2:1': { torque: { value, unit, tool: 'T-1', ...SAID } } },
      places: here,
    });
    expect(await codes(await job(WITH, [plain('orange')], { places: here }))).toContain('note no-torque');
    expect(await codes(await job(WITH, [plain('orange')], given(3.95, 'N·m')))).toEqual(['warning no-reading']);
    expect(await codes(await job(WITH, [plain('orange')], given(53, 'lbf·in')))).toContain('warning torque');
  });

  it('come worst first, and as cells no spreadsheet runs', async () => {
    const j = await job({ ...OG, panel: '=HYPERLINK("x")', phase: 'C', torque: '35' }, [plain('red')], {});
    const view = viewTurnover(j);
    expect(view.deviations.map((d) => d.severity)).toEqual(['violation', 'warning', 'note']);
    expect(view.open).toBe(3);
    const csv = deviationTable(view);
    expect(csv).toContain(`"'=HYPERLINK(""x"")"`);
    expect(csv).not.toMatch(/(?:^|,)"?=/m);
  });

  it('no word in them says that anything is safe, dead or identified', async () => {
    const { TURNOVER_WORDS } = await import('../../../src/words/en/turnover');
    const claims = (text: string): boolean => /\b(?:safe|dead|de-energized|identified|verified)\b/i.test(text);
    expect(Object.entries(TURNOVER_WORDS).filter(([, text]) => claims(text))).toEqual([]);
    expect(claims('Conductor identified.')).toBe(true);
  });
});

describe('the log of a turnover', () => {
  it('holds every value entered, also one that was replaced', async () => {
    const before = await job(OG, [plain('orange')], { places: here });
    const torque = { value: 35, unit: 'lbf·in' as const, tool: 'T-9', ...SAID };
    const with35: Job = {
      ...before,
      turnover: { ...EMPTY_TURNOVER, ...before.turnover, entries: { 's2:1': { torque } } },
    };
    expect(changesBetween(before, with35)).toEqual([
      {
        code: 'record.change.entry',
        values: {
          termination: 's2:1',
          field: 'torque',
          value: `value 35, unit lbf·in, tool T-9, by Tech One, at ${SAID.at}`,
        },
      },
    ]);
    expect(changesBetween(with35, before)[0]?.values?.value).toBe('-');
  });
});

describe('a tag', () => {
  it('names the place it was printed for, whatever the panel is called', () => {
    for (const place of [
      { panel: 'LP1' },
      { panel: 'a/b:é "x"', space: 7 },
      { panel: 'P', space: 1, termination: 's1-2:1' },
    ])
      expect(readTag(tagText(place))).toEqual(place);
  });

  it('of somebody else, or not whole, is no tag of ours (twin)', () => {
    for (const text of [
      'https://example.org',
      'HUEPROOF:1:',
      'HUEPROOF:1:P/x',
      'HUEPROOF:1:P/0',
      'HUEPROOF:1:%',
      'HUEPROOF:1:P/1/t/u',
      '',
    ])
      expect(readTag(text), text).toBeNull();
  });
});

describe('pairing by order', () => {
  const at = (id: string, x: number, name: 'orange' | 'brown' | 'red'): NamedConductor => ({
    ...plain(name),
    id,
    centerline: [
      [x, 10],
      [x + 3, 400],
    ],
  });
  const three = { panel: 'LP1', space: '1', poles: '3', color: 'BN/OG/RD' };
  const place = { photo: 'p1', panel: 'LP1', space: 1 };
  const found = [at('c1', 300, 'red'), at('c2', 100, 'brown'), at('c3', 200, 'orange')];

  it('goes from left to right where they run up and down, and from top to bottom where they run across', () => {
    expect(sideBySide(found).map((c) => c.id)).toEqual(['c2', 'c3', 'c1']);
    const turned = found.map((c): NamedConductor => ({ ...c, centerline: c.centerline.map(([x, y]) => [y, -x]) }));
    expect(sideBySide(turned).map((c) => c.id)).toEqual(['c1', 'c3', 'c2']);
  });

  it('compares each, says that nobody pointed, and calls nothing a violation (twin: pointed at, it does)', async () => {
    const base = await job(three, found);
    const wanted = viewTurnover(base).compared.map((c) => c.termination);
    const kept = (conductors: readonly NamedConductor[], pointed: boolean): Promise<Job> =>
      job(three, found, {
        entries: Object.fromEntries(
          Object.entries(pairInOrder(terminationsAt(place, wanted), conductors)).map(([id, conductor]) => [
            id,
            { sightings: [sightingOf('p1', conductor, pointed, SAID)] },
          ]),
        ),
      });
    const results = async (of: Promise<Job>) => viewTurnover(await of).compared.map((c) => c.because.code);
    expect(await results(kept(found, false))).toEqual(Array(3).fill('record.compare.match-by-order'));
    expect(await results(kept(found, true))).toEqual(Array(3).fill('record.compare.match'));
    const [first, second, third] = found;
    if (!first || !second || !third) throw new Error('three');
    const swapped = [first, { ...second, centerline: third.centerline }, { ...third, centerline: second.centerline }];
    const severities = async (of: Promise<Job>) =>
      viewTurnover(await of)
        .deviations.filter((d) => d.code === 'differs')
        .map((d) => [d.severity, d.message.code.endsWith('-by-order')]);
    expect(await severities(kept(swapped, false))).toEqual(Array(2).fill(['warning', true]));
    expect(await severities(kept(swapped, true))).toEqual(Array(2).fill(['violation', false]));
  });

  it('leaves alone what was said, and whom it is said of', () => {
    const [a, b, c] = ['s2:1', 's2:2', 's2:3'].map((id) => ({ id }) as Termination);
    if (!a || !b || !c) throw new Error('three');
    expect(pairInOrder([a, b, c], found, { 's2:2': 'c2' })).toEqual({ 's2:1': 'c3', 's2:3': 'c1' });
    expect(pairInOrder([a, b, c], found.slice(0, 1))).toEqual({ 's2:1': 'c1' });
  });

  it('knows the terminations of a line, a space and a panel', async () => {
    const all = viewTurnover(await job({ ...three, neutral: 'WH' }, [])).compared.map((each) => each.termination);
    const ids = (at: Parameters<typeof terminationsAt>[0]) => terminationsAt(at, all).map((each) => each.id);
    expect(ids({ panel: 'LP1', space: 3 })).toEqual(['s2:1', 's2:2', 's2:3', 's2:neutral']);
    expect(ids({ panel: 'LP1', termination: 's2:2' })).toHaveLength(4);
    expect(ids({ panel: 'LP1' })).toHaveLength(4);
    expect(ids({ panel: 'LP2' })).toEqual([]);
    expect(ids({ panel: 'LP1', space: 2 })).toEqual([]);
  });
});

describe('the next termination without a photo', () => {
  const lines = ['1', '2', '3'].map(
    (space, k): ScheduleLine => ({ id: `n${k}`, row: k + 2, cells: { panel: 'LP1', space, color: 'BK' }, other: {} }),
  );
  const next = (more: Partial<Turnover>): string | null =>
    nextWithoutPhoto({ ...EMPTY_TURNOVER, lines, ...more })?.id ?? null;
  const at = (place: Partial<PhotoPlace>): PhotoPlace => ({
    photo: 'p1',
    panel: 'LP1',
    how: 'by hand',
    ...SAID,
    ...place,
  });

  it('goes by the order of the schedule, past what was photographed or pointed out', () => {
    expect(next({})).toBe('n0:1');
    expect(next({ places: [at({ termination: 'n0:1' })] })).toBe('n1:1');
    expect(next({ places: [at({ space: 1 }), at({ space: 2 })] })).toBe('n2:1');
    expect(next({ entries: { 'n0:1': { sightings: [{ photo: 'p1', conductor: 'c1', ...SAID }] } } })).toBe('n1:1');
    expect(next({ places: [at({})] })).toBeNull();
    expect(next({ places: [at({ panel: 'LP2' })] })).toBe('n0:1');
    expect(next({ lines: [] })).toBeNull();
  });
});
