import { chooseFile, expect, expectAccessible, READING, shoot, test } from './app-page';
import { SCENE } from './scene';

const SCHEDULE = ['Panel,Space,Poles,Color', 'LP1,1,1,BK', 'LP1,2,1,RD'].join('\r\n');

/** The browser's own folder stands in for one that the user picks: the same handle, without the dialog. */
const PICK = (): void =>
  void Object.assign(globalThis, { showDirectoryPicker: () => navigator.storage.getDirectory() });

test('from the schedule to a saved photo in three taps, and a second copy outside of the record', async ({ page }) => {
  test.setTimeout(180_000);
  await page.addInitScript(PICK);
  await page.goto('./');
  await page.getByRole('link', { name: /Record a turnover/ }).click();
  await page.getByRole('link', { name: 'Begin with the schedule' }).click();
  await page.getByLabel('Or paste a table').fill(SCHEDULE);
  await page.getByRole('button', { name: 'Read the pasted table' }).click();
  await page.getByRole('button', { name: 'Take 2 lines' }).click();
  await expect(page.getByText('Saved', { exact: true }).first()).toBeVisible();

  // Opened again the next day: three taps to a photo that is saved where it belongs.
  await page.goto('./');
  await page.getByRole('link', { name: 'Photograph next: LP1, space 1, pole' }).click();
  await page.getByRole('button', { name: 'Take photo' }).click();
  await page.getByRole('button', { name: 'Use this photo' }).click();
  await expect(page.getByRole('heading', { name: 'LP1, space 1, pole' })).toBeVisible(READING);
  await expect(page.getByText('Saved', { exact: true }).first()).toBeVisible();
  await page.goto('./');
  await expect(page.getByRole('link', { name: 'Photograph next: LP1, space 2, pole' })).toBeVisible();
  await expectAccessible(page);

  await page.getByRole('link', { name: /^Turnover 20/ }).click();
  await page.getByRole('link', { name: 'Report', exact: true }).click();
  await page.getByRole('button', { name: 'Pick a folder for the second copy' }).click();
  await expect(page.getByText('It holds everything that is saved.')).toBeVisible(READING);
  await expectAccessible(page);
  const kept = await page.evaluate(async () => {
    const out: { name: string; size: number; start: string }[] = [];
    const folder = (await navigator.storage.getDirectory()) as unknown as {
      values(): AsyncIterable<FileSystemFileHandle>;
    };
    for await (const handle of folder.values()) {
      const file = await handle.getFile();
      out.push({ name: file.name, size: file.size, start: await file.slice(0, 2).text() });
    }
    return out;
  });
  expect(kept).toHaveLength(1);
  expect(kept[0]?.name).toMatch(/-1\.zip$/);
  expect(kept[0]?.start).toBe('PK');
  expect(kept[0]?.size).toBeGreaterThan(10_000);

  // A change makes it old (twin), and says so; the place outlives a reload.
  await page.getByLabel('In what capacity').fill('Inspector');
  await page.getByLabel('Who says so').fill('Invented Tester');
  await page.getByRole('button', { name: 'Sign', exact: true }).click();
  await expect(page.getByText(/What was saved since is not in it yet/)).toBeVisible();
  await page.reload();
  await expect(page.getByText(/What was saved since is not in it yet/)).toBeVisible(READING);
  await page.getByRole('button', { name: 'Write the copy now' }).click();
  await expect(page.getByText(/-2\.zip: written and read back.* It holds everything that is saved/)).toBeVisible(
    READING,
  );
});

test('a photo of several conductors is paired by touch and by order, and each is compared', async ({ page }) => {
  test.setTimeout(180_000);
  await page.goto('./#/turnover');
  const lines = Array.from({ length: 5 }, (_, k) => `LP1,${k + 1},1,BK`);
  await page.getByLabel('Or paste a table').fill(['Panel,Circuit,Poles,Color', ...lines].join('\r\n'));
  await page.getByRole('button', { name: 'Read the pasted table' }).click();
  await page.getByRole('button', { name: 'Take 5 lines' }).click();
  await page.getByRole('link', { name: 'Terminations', exact: true }).click();
  await page.getByRole('link', { name: 'Scan a label' }).click();
  await chooseFile(page, SCENE.path);
  await page.waitForURL(/record$/, READING);
  await page.getByRole('link', { name: /^Turnover/ }).click();
  await page.getByRole('link', { name: 'Terminations', exact: true }).click();
  await page
    .getByRole('link', { name: /^LP1, 1, pole|^LP1.*1.*pole/ })
    .first()
    .click();
  await page.getByLabel('Photo of this termination').selectOption({ index: 1 });
  await page.getByRole('link', { name: 'Pair all conductors of this photo' }).click();
  await expect(page.getByRole('heading', { name: /Who lands where/ })).toBeVisible();
  await expectAccessible(page);
  await shoot(page, 'pair');
  await page
    .getByRole('group', { name: /Which conductor lands here/ })
    .getByRole('button')
    .first()
    .click();
  await expect(page.getByRole('button', { name: 'Keep 1 pair' })).toBeEnabled();
  // Undo takes back the touch, and no edit of the job.
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: 'Keep 0 pairs' })).toBeDisabled();
  await page.getByRole('button', { name: 'Redo' }).click();
  await shoot(page, 'pair-full', true);
  await page.getByRole('button', { name: 'Keep 1 pair' }).click();
  await expect(page.getByRole('link', { name: /^LP1.*pole/ }).first()).not.toContainText('point at');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('link', { name: /^LP1.*pole/ }).first()).toContainText('point at');
});
