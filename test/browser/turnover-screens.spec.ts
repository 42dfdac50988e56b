import type { Page } from '@playwright/test';
import { EMPTY_TURNOVER, type Job, type ScheduleLine } from '../../src/flow';
import { exportJob, nextEntry } from '../../src/record';
import { conductor, sampleJob } from '../record/sample-job';
import { expect, expectFit, READING, test } from './app-page';

const SAID = { by: 'Invented Tester with a rather long name', at: '2026-03-04T06:00:00Z' };
const LONG = 'Panelboard-of-the-north-mechanical-penthouse-with-a-name-that-nobody-shortened';

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

/** Accessible and fitting, and kept as a picture. */
async function look(page: Page, name: string, path: (name: string) => string): Promise<void> {
  await page.evaluate(() => document.fonts.ready.then(() => {}));
  await expectFit(page);
  await page.screenshot({ path: path(name) });
}

/** Each takes 20 s: both themes are seen, not each at each size. */
const SIGHTS = [
  { size: 'phone', width: 390, height: 844, theme: 'dark' },
  { size: 'desk', width: 1440, height: 900, theme: 'sun' },
  { size: 'narrow', width: 320, height: 640, theme: 'dark' },
  { size: 'side', width: 844, height: 390, theme: 'sun' },
] as const;
for (const { size, width, height, theme } of SIGHTS)
  test(`the turnover screens with many rows and long names: ${size}, ${theme}`, async ({ page }, info) => {
    test.setTimeout(240_000);
    await page.addInitScript((t) => localStorage.setItem('hueproof.theme', t), theme);
    await page.setViewportSize({ width, height });
    const see = (name: string): Promise<void> => look(page, name, (n) => info.outputPath(`${n}-${size}-${theme}.png`));
    const job = await midWeek();
    const file = await exportJob(job, [await nextEntry(undefined, job, SAID.at, [])], new Map(), SAID.at);
    await page.goto('./');
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Bring in an exported job' }).click();
    const buffer = Buffer.from(JSON.stringify(file));
    await (await chooser).setFiles({ name: 'week.json', mimeType: 'application/json', buffer });
    await page.waitForURL(/terminations/, READING);
    await expect(page.getByRole('link', { name: /space 1, pole/ }).first()).toBeVisible(READING);
    await see('terminations');
    await page.getByRole('button', { name: /atch/ }).first().click();
    await expect(page.getByText('None here.').or(page.getByRole('listitem').first())).toBeVisible();
    await see('none-of-them');
    for (const [name, part] of [
      ['overview', ''],
      ['schedule', '/schedule'],
      ['queue', '/queue'],
      ['deviations', '/deviations'],
      ['report', '/report'],
      ['termination', '/at/s0%3A1'],
      ['pair', '/pair/p3'],
      ['lost', '/at/none'],
    ] as const) {
      await page.goto(`./#/job/week/turnover${part}`);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible(READING);
      if (name === 'deviations') await page.getByText('Assign, comment, close').first().click();
      await see(name);
    }
    await page.goto('./');
    await expect(page.getByRole('link', { name: /Photograph next/ })).toBeVisible();
    await see('start');
    // A new one: nothing in it yet, then a schedule with faults, then one that is none.
    await page.goto('./#/turnover');
    await expect(page.getByText('No schedule yet.')).toBeVisible();
    await see('schedule-empty');
    await page.getByLabel('Or paste a table').fill(`Panel,Space,Poles,Color\n${LONG},four,9,plaid\n,1,1,BK`);
    await page.getByRole('button', { name: 'Read the pasted table' }).click();
    await see('mapping');
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({ name: 'x.csv', mimeType: 'text/csv', buffer: Buffer.from([0, 1, 2, 0, 255]) });
    await expect(page.getByRole('alert')).toBeVisible();
    await see('schedule-unreadable');
    for (const part of ['Terminations', 'Deviations', 'Photos', 'Report']) {
      await page.getByRole('link', { name: part, exact: true }).click();
      await see(`${part.toLowerCase()}-empty`);
    }
  });
