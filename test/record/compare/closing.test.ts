import { describe, expect, it } from 'vitest';
import type { Deviation, Job, JobPhoto, PhotoPlace, Turnover } from '../../../src/flow';
import { EMPTY_TURNOVER } from '../../../src/flow';
import { closingFault, shownBy, viewTurnover } from '../../../src/record';
import { conductor, sampleJob } from '../sample-job';

const SAID = { by: 'Tech One', at: '2026-03-04T06:00:00Z' };
const LINE = { id: 's2', row: 2, cells: { panel: 'LP1', space: '3', color: 'OG' }, other: {} };
const at = (photo: string, after = false): PhotoPlace => ({
  photo,
  panel: 'LP1',
  termination: 's2:1',
  how: 'by hand',
  ...SAID,
  ...(after && { after: true as const }),
});

/** Photos p0, p1, ... added in this order, each with the time its file names. */
async function photos(...taken: readonly (string | null)[]): Promise<JobPhoto[]> {
  const [photo] = (await sampleJob()).photos;
  if (!photo) throw new Error('the sample has a photo');
  const red = conductor('c1');
  const conductors = [{ ...red, stripe: null, insulation: { ...red.insulation, best: 'red', set: ['red'] } }] as const;
  return taken.map((takenAt, k) => {
    const { takenAt: _, ...facts } = photo.findings.photo;
    const name = `IMG_${k}.jpg`;
    const map = { ...photo.findings.map, findings: [] };
    const found = { ...facts, name, ...(takenAt === null ? {} : { takenAt }) };
    return { ...photo, id: `p${k}`, words: {}, findings: { ...photo.findings, conductors, map, photo: found } };
  });
}

async function shown(code: string, turnover: Partial<Turnover>): Promise<readonly string[]> {
  const job: Job = {
    ...(await sampleJob()),
    photos: await photos(null, null, null),
    turnover: { ...EMPTY_TURNOVER, lines: [LINE], ...turnover },
  };
  const view = viewTurnover(job);
  const deviation = view.deviations.find((d) => d.code === code);
  if (!deviation) throw new Error(`no ${code}: ${view.deviations.map((d) => d.code)}`);
  return [...shownBy(deviation, view)].sort();
}

describe('the photos that show a deviation as it was found', () => {
  it('are those of its termination before a correction, however they came there', async () => {
    expect(await shown('differs', { places: [at('p0')] })).toEqual(['p0']);
    // Paired in a photo of the whole panel: the photo has no place at the termination itself.
    const entries = { 's2:1': { sightings: [{ photo: 'p1', conductor: 'c1', ...SAID }] } };
    expect(await shown('differs', { places: [{ ...at('p1'), termination: undefined } as never], entries })).toEqual([
      'p1',
    ]);
    expect(await shown('missing', {})).toEqual([]);
  });

  it('a photo after the correction that still differs shows it too; a missing reading it does not show (twin)', async () => {
    const places = [at('p0'), at('p2', true)];
    const entries = { 's2:1': { sightings: [{ photo: 'p2', conductor: 'c1', ...SAID }] } };
    expect(await shown('differs', { places, entries })).toEqual(['p0', 'p2']);
    expect(await shown('no-reading', { places, entries })).toEqual(['p0']);
  });

  it('a finding lies in its photo, a fault of the schedule in none', () => {
    const finding = { id: 'p1:identify.finding.x:c1', code: 'finding', termination: null } as Deviation;
    const view = { compared: [], turnover: EMPTY_TURNOVER };
    expect([...shownBy(finding, view)]).toEqual(['p1']);
    expect([...shownBy({ ...finding, id: 's2:schedule:x', code: 'schedule' }, view)]).toEqual([]);
  });
});

describe('a deviation is closed', () => {
  const fault = async (k: number, shows: readonly number[], ...taken: readonly (string | null)[]) => {
    const all = await photos(...taken);
    const photo = all[k];
    if (!photo) throw new Error('no such photo');
    return closingFault(photo, new Set(shows.map((n) => `p${n}`)), all)?.code ?? null;
  };
  const [NINE, TEN] = ['2026-03-04T09:00:00', '2026-03-04T10:00:00'];

  it('by a photo taken later, whenever it was added, and not by one taken before', async () => {
    expect(await fault(1, [0], NINE, TEN)).toBeNull();
    expect(await fault(0, [1], TEN, NINE)).toBeNull();
    expect(await fault(1, [0], TEN, NINE)).toBe('record.close.taken-before');
    expect(await fault(0, [1], NINE, TEN)).toBe('record.close.taken-before');
  });

  it('by one added later where a file does not say when, or says it in another way', async () => {
    for (const [a, b] of [
      [null, null],
      [NINE, null],
      [null, NINE],
      [NINE, NINE],
      // With and without the offset from UTC: hours apart in either direction.
      [`${TEN}+02:00`, NINE],
    ] as const) {
      expect(await fault(1, [0], a, b), `${a} ${b}`).toBeNull();
      expect(await fault(0, [1], a, b), `${a} ${b}`).toBe('record.close.added-before');
    }
    // Both with an offset: 10:00 at +02:00 is before 09:00 at +00:00.
    expect(await fault(1, [0], `${TEN}+02:00`, `${NINE}+00:00`)).toBeNull();
    expect(await fault(1, [0], `${NINE}+00:00`, `${TEN}+02:00`)).toBe('record.close.taken-before');
  });

  it('never by one that shows it, and only after all that do', async () => {
    expect(await fault(0, [0], NINE)).toBe('record.close.shows-it');
    expect(await fault(1, [0, 2], null, null, null)).toBe('record.close.added-before');
    expect(await fault(0, [], null)).toBeNull();
  });
});
