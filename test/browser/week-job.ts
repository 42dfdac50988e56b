import type { Page } from '@playwright/test';
import { EMPTY_TURNOVER, type Job, type ScheduleLine } from '../../src/flow';
import { conductor, sampleJob } from '../record/sample-job';
import { bringInFile, READING } from './app-page';
import { exported } from './exported';

const SAID = { by: 'Invented Tester with a rather long name', at: '2026-03-04T06:00:00Z' };
export const LONG = 'Panelboard-of-the-north-mechanical-penthouse-with-a-name-that-nobody-shortened';

const lines = Array.from({ length: 300 }, (_, k): ScheduleLine => {
  const cells = {
    panel: k < 3 ? LONG : `LP${1 + Math.floor(k / 42)}`,
    space: k === 7 ? 'four' : String((k % 42) + 1),
    system: '208Y/120',
    color: ['BK', 'RD', 'BU'][k % 3] ?? 'BK',
    load:
      k % 5 === 0 ? `Invented pump ${k}, east of the corridor between two rooms whose numbers are long` : `Load ${k}`,
    neutral: 'WH',
    torque: '35 in-lb',
  };
  return { id: `s${k}`, row: k + 2, cells, other: {} };
});

/** A turnover as it may stand in the middle of a week. The photos' bytes stayed on another device. */
async function midWeek(): Promise<Job> {
  const job = await sampleJob('week');
  const [photo] = job.photos;
  if (!photo) throw new Error('the sample has a photo');
  const conductors = Array.from({ length: 6 }, (_, k) => ({
    ...conductor(`c${k}`),
    crossings: [],
    centerline: [
      [60 + 110 * k, 40],
      [70 + 110 * k, 560],
    ] as const,
    outlines: [
      [
        [55 + 110 * k, 40],
        [75 + 110 * k, 40],
        [85 + 110 * k, 560],
        [65 + 110 * k, 560],
      ],
    ] as const,
  }));
  const assignments = photo.findings.map.assignments.filter((a) => conductors.some((c) => c.id === a.conductor));
  const map = { ...photo.findings.map, assignments };
  const findings = { ...photo.findings, conductors, map };
  return {
    ...job,
    title: `Turnover of ${LONG}`,
    by: SAID.by,
    photos: Array.from({ length: 12 }, (_, k) => ({ ...photo, id: `p${k}`, findings, words: {}, readings: [] })),
    turnover: {
      ...EMPTY_TURNOVER,
      lines,
      places: Array.from({ length: 12 }, (_, k) => {
        const { panel } = lines[k]?.cells ?? {};
        return { photo: `p${k}`, panel: panel ?? '', space: k + 1, how: 'by hand' as const, ...SAID };
      }),
      entries: {
        's0:1': {
          sightings: [{ photo: 'p0', conductor: 'c1', ...SAID }],
          torque: { value: 20, unit: 'lbf·in', tool: 'T-77', ...SAID },
          witness: { seen: false, ...SAID },
        },
        's1:1': { sightings: [{ photo: 'p1', conductor: 'c1', how: 'by order', ...SAID }] },
      },
      handled: {
        's0:1:torque': { assigned: { to: 'Crew B', ...SAID }, comments: [{ text: 'again '.repeat(40), ...SAID }] },
      },
    },
  };
}

/** From the start to the list of terminations of a turnover that another device exported. */
export async function bringIn(page: Page): Promise<void> {
  const job = await midWeek();
  const buffer = await exported(job, SAID.at);
  await page.goto('./');
  await bringInFile(page, { name: 'week.json', mimeType: 'application/json', buffer });
  await page.waitForURL(/terminations/, READING);
}
