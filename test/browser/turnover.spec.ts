import { readFileSync } from 'node:fs';
import encodeQR from 'qr';
import sharp from 'sharp';
import { tagText } from '../../src/record/tag/tag-text';
import { bringInFile, chooseFile, expect, READING, shoot, test } from './app-page';
import { SCENE } from './scene';

const SCHEDULE = [
  'Board,Space,Poles,System,Color,Neutral,Ground,Torque,Load',
  'LP1,1,3,208Y/120,BK/RD/BU,WH,GN,35 in-lb,"Invented pump, east"',
  'LP1,2,1,208Y/120,BK,,,35,=1+1',
  'LP1,four,1,,BK,,,,<img src=x onerror=alert(1)>',
].join('\r\n');

// Whether its screens are accessible is seen in turnover-screens.spec.ts.
test('a turnover from schedule to report', async ({ page }) => {
  test.setTimeout(240_000);
  await page.goto('./#/shoot/record');
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('link', { name: /^Turnover/ })).toBeVisible(READING);
  await page.getByLabel('Who says so').fill('Invented Tester');
  await page.getByRole('link', { name: /^Turnover/ }).click();
  await page.getByRole('link', { name: 'Begin with the schedule' }).click();

  await page.getByLabel('Or paste a table').fill(SCHEDULE);
  await page.getByRole('button', { name: 'Read the pasted table' }).click();
  await expect(page.getByText('3 lines, 2 cells not clear')).toBeVisible();
  await shoot(page, 'mapping');
  await page.getByRole('button', { name: 'Take 3 lines' }).click();
  await expect(page.getByText('3 lines, 6 terminations.')).toBeVisible();

  // Bulk: one new photo, and the first once more.
  await page.getByRole('link', { name: 'Photos', exact: true }).click();
  // The new one shows a printed tag.
  const code = Buffer.from(encodeQR(tagText({ panel: 'LP1', space: 2 }), 'svg', { border: 3, scale: 6 }));
  const label = await sharp(code).flatten({ background: 'white' }).resize(240).png().toBuffer();
  const tagged = await sharp(SCENE.path.replace(/[^/]+$/, 'faded-red.jpg'))
    .composite([{ input: label, left: 900, top: 900 }])
    .jpeg()
    .toBuffer();
  const name = SCENE.path.replace(/.*\//, '');
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles([
      { name, mimeType: 'image/jpeg', buffer: readFileSync(SCENE.path) },
      { name: 'tagged.jpg', mimeType: 'image/jpeg', buffer: tagged },
    ]);
  await expect(page.getByText('1 photo is here already')).toBeVisible(READING);
  await expect(page.getByRole('button', { name: 'Read 1 photo' })).toBeEnabled();
  // The queue outlives a reload.
  await page.reload();
  await page.getByRole('button', { name: 'Read 1 photo' }).click(READING);
  await expect(page.getByText('1 of 1 read')).toBeVisible(READING);
  await shoot(page, 'queue');

  await page.getByRole('link', { name: 'Terminations', exact: true }).click();
  await expect(page.getByRole('link', { name: /^LP1, space 1, pole/ })).toContainText('No photo of this termination');
  await expect(page.getByRole('link', { name: /^LP1, space 2, pole/ })).toContainText('Cannot tell');
  await shoot(page, 'terminations');
  await page.setViewportSize({ width: 1440, height: 900 });
  await shoot(page, 'terminations-wide');
  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByRole('link', { name: /^LP1, space 1, pole/ }).click();
  await page.getByLabel('Photo of this termination').selectOption({ index: 1 });
  await expect(page.getByText(/point at the one that lands here/)).toBeVisible();
  await page
    .getByRole('group', { name: /Which conductor lands here/ })
    .getByRole('button')
    .first()
    .click();
  await page.getByLabel('Torque as read').fill('35');
  await page.getByLabel('Tool id').fill('T-7');
  await page.getByRole('button', { name: 'Enter the torque' }).click();
  await expect(page.getByText(/35 lbf·in. Entered by Invented Tester/)).toBeVisible();
  await page.getByRole('button', { name: 'Seen', exact: true }).click();
  // 7/16 of an international inch.
  await page.getByLabel(/^Strip length/).fill('7/16 in');
  await page.getByLabel('Tape', { exact: true }).focus();
  await expect(page.getByText(/^11\.11 mm\. Entered by Invented Tester/)).toBeVisible();
  await shoot(page, 'termination', true);

  await page.getByRole('link', { name: 'Terminations', exact: true }).click();
  await page.getByRole('link', { name: 'Deviations', exact: true }).click();
  const first = page.getByRole('listitem').filter({ hasText: 'No photo of this termination' }).first();
  await first.getByText('Assign, comment, close').click();
  await first.getByLabel('Assigned to').fill('Crew B');
  await first.getByLabel('Comment').fill('behind the gutter');
  await first.getByRole('button', { name: 'Add the comment' }).click();
  await expect(first.getByText(/behind the gutter \(Invented Tester/)).toBeVisible();
  await shoot(page, 'deviations');

  await page.getByRole('link', { name: 'Report', exact: true }).click();
  await page.getByLabel('In what capacity').fill('Inspector');
  await page.getByRole('button', { name: 'Sign', exact: true }).click();
  await expect(page.getByText(/, Inspector, /)).toBeVisible();
  await shoot(page, 'report');
  const saved = async (key: string): Promise<Buffer> => {
    const download = page.waitForEvent('download', READING);
    await page.getByRole('button', { name: key }).click();
    return readFileSync(await (await download).path());
  };
  expect((await saved('Report (PDF)')).subarray(0, 5).toString()).toBe('%PDF-');
  expect((await saved('Sheet of labels (PDF)')).subarray(0, 5).toString()).toBe('%PDF-');
  const csv = (await saved('Deviations (CSV)')).toString();
  expect(csv).toContain('Crew B');
  const archive = await saved('Export archive (zip)');
  expect(archive.subarray(0, 2).toString()).toBe('PK');

  // On another device.
  const there = await page.context().browser()?.newContext();
  const elsewhere = await there?.newPage();
  if (!there || !elsewhere) throw new Error('no second device');
  await elsewhere.goto(page.url().replace(/#.*/, ''));
  await bringInFile(elsewhere, { name: 'record.zip', mimeType: 'application/zip', buffer: archive });
  await elsewhere.waitForURL(/#\/job\//, READING);
  await elsewhere.goto(page.url());
  await expect(elsewhere.getByText(/, Inspector, /)).toBeVisible(READING);
  await there.close();
});
