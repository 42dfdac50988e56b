import { chooseFile, expect, expectAccessible, READING, readScene, step, test } from './app-page';
import { SCENE } from './scene';

test('from the start three touches lead to the candidates of one conductor', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('link', { name: /Name one conductor/ }).click();
  // The button and the file in the chooser are the second and the third.
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: 'Color by the photo' })).toBeVisible(READING);
  const picture = page.getByRole('img', { name: /^It lies where/ });
  await expect(picture).toBeVisible(READING);
  // The ring of the reading and the region of at least one name, with letters beside.
  await expect(picture.locator('.hue-spread')).toHaveCount(1);
  expect(await picture.locator('.hue-possible').count()).toBeGreaterThan(0);
  await expect(picture.locator('text')).toHaveCount(13);
  await expectAccessible(page);
});

test('two conductors are compared in words', async ({ page }) => {
  await readScene(page);
  await step(page, 'Photo').click();
  await page.locator('.row-link').first().click();
  await page.getByText('Same color as another one?').click();
  const choice = page.getByLabel('Compare with');
  const options = await choice.locator('option').allTextContents();
  expect(options.length).toBeGreaterThan(2);
  const answers = new Set<string>();
  for (const option of options.slice(1)) {
    await choice.selectOption({ label: option });
    const answer = page.getByRole('status').filter({ hasText: /times better|cannot tell/ });
    await expect(answer).toBeVisible(READING);
    answers.add(((await answer.textContent()) ?? '').replace(/\d+/, 'n'));
  }
  // The scene has conductors of several colors: they cannot all be the same, nor all different.
  expect(answers.size).toBeGreaterThan(1);
  await expectAccessible(page);
});

test('a comparison and the same conductor on two photos are kept in the record, with who says so', async ({ page }) => {
  await readScene(page);
  await step(page, 'Record').click();
  await page.getByLabel('Who says so').fill('Invented Tester');
  await page.getByRole('button', { name: 'Add photo' }).click();
  await chooseFile(page, SCENE.path);
  await expect(page.getByRole('heading', { name: /^Photo 2/ })).toBeVisible(READING);
  await step(page, 'Photo').click();
  await page.locator('.row-link').first().click();
  await page.getByText('Same color as another one?').click();
  await page.getByLabel('Compare with').selectOption({ index: 2 });
  await page.getByRole('button', { name: 'Keep this answer in the record' }).click(READING);
  await page.getByText('Same conductor in another photo?').click();
  await page.getByLabel(/^Photo 1: /).selectOption({ index: 1 });
  await expect(page.getByText(/^From 2 photos together/)).toBeVisible();
  await expectAccessible(page);
  await step(page, 'Record').click();
  const same = page.getByRole('region', { name: 'One conductor on several photos' });
  await expect(same).toContainText('photo 2, conductor 1 = photo 1, conductor 1');
  await expect(same).toContainText('One conductor, as Invented Tester says');
  await expect(page.getByRole('heading', { name: 'Colors compared' })).toBeVisible(READING);
  await expect(page.getByText(/^Kept by Invented Tester/)).toBeVisible();
  await expectAccessible(page);
  await expect(page.getByText('Saved', { exact: true })).toBeVisible(READING);
  await page.reload();
  await expect(same).toContainText('photo 2, conductor 1 = photo 1, conductor 1', READING);
});
