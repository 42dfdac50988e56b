import type { Page } from '@playwright/test';
import { expect, expectAccessible, openScene, passGate, READING, step, test } from './app-page';

const card = (page: Page) => page.locator('.check-card');
const pad = (page: Page) => page.getByRole('form', { name: 'Reading', exact: true });
const enter = (page: Page) => page.getByRole('button', { name: 'Enter', exact: true }).click();

async function type(page: Page, value: string): Promise<void> {
  await pad(page).getByLabel('The meter shows').fill(value);
  await enter(page);
}

/** The value that the check in hand expects first. */
async function expected(page: Page): Promise<string> {
  const text = (await card(page).locator('td b').first().textContent()) ?? '';
  return /[\d.]+/.exec(text)?.[0] ?? '0';
}

test('the place decides the meter: CAT III at the service stops, and so does wet gear', async ({ page }) => {
  await openScene(page);
  await passGate(page);
  await page.getByText('Safety steps confirmed by').click();
  await page.getByRole('button', { name: 'Service or origin of the supply' }).click();
  const stop = page.getByRole('alert').filter({ hasText: 'at least CAT IV' });
  await expect(stop).toContainText('call a qualified person');
  await expect(card(page)).toBeHidden();
  await expect(pad(page)).toBeHidden();
  await page.getByRole('button', { name: 'CAT IV', exact: true }).click();
  await expect(card(page)).toBeVisible(READING);
  await page.getByRole('button', { name: 'Wet, damaged or burnt' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'Wet or damaged' })).toContainText('call');
  await expect(pad(page)).toBeHidden();
  await page.getByRole('button', { name: 'Dry and whole' }).click();
  await expect(pad(page)).toBeVisible(READING);
});

test('nothing can be typed before the place is said and every step confirmed in order', async ({ page }) => {
  await openScene(page);
  await step(page, 'Meter').click();
  await page.getByLabel('Your name').fill('Invented Tester');
  await page.getByRole('button', { name: 'CAT III', exact: true }).click();
  const boxes = page.getByRole('group', { name: 'I confirm' }).getByRole('checkbox');
  await boxes.first().click();
  await expect(boxes.nth(1)).toBeEnabled();
  await expect(boxes.nth(2)).toBeDisabled();
  for (const box of (await boxes.all()).slice(1)) await box.click();
  // The place and the look of the gear are still open.
  await expect(page.getByText('Still to confirm: 0')).toBeVisible();
  await expect(pad(page)).toBeHidden();
  await page.getByRole('button', { name: 'Panel or fixed wiring' }).click();
  await expect(pad(page)).toBeHidden();
  await page.getByRole('button', { name: 'Dry and whole' }).click();
  await expect(pad(page)).toBeVisible(READING);
});

test('a reading is judged at once, questioned where it cannot be, taken again and taken back', async ({ page }) => {
  await openScene(page);
  await passGate(page);
  await expect(card(page)).toContainText('It would show');
  await type(page, '1900');
  await expect(page.getByRole('alert').filter({ hasText: '1900 V' })).toBeVisible();
  await page.getByRole('button', { name: 'Correct it' }).click();
  const value = await expected(page);
  await type(page, value);
  await expect(page.getByText(`Last reading: ${value}`)).toBeVisible(READING);
  const readings = page.getByRole('region', { name: 'Readings', exact: true });
  await readings.getByRole('button', { name: 'Again' }).click();
  await expect(card(page)).toContainText(`It read ${value} V before`);
  // Nowhere near what the map expects, whichever check came first.
  const wrong = Number(value) > 60 ? '3' : '61';
  await type(page, wrong);
  await expect(readings).toContainText(`in place of ${value} V`, READING);
  await expect(readings.locator('s')).toHaveText(`${value} V`);
  await expect(page.getByText(/Readings contradict|is now disputed/).first()).toBeVisible(READING);
  await readings.getByRole('button', { name: 'Take back' }).click();
  await expect(readings.locator('s')).toHaveCount(2);
  await expect(readings).toContainText('taken back by Invented Tester');
  await expect(page.getByText(`${wrong} was taken back: it is kept and no longer counts.`)).toBeVisible(READING);
});

test('ringing out with the supply proven off: steps in order, recorded, and never more than by color', async ({
  page,
}) => {
  await openScene(page);
  await passGate(page);
  await page.getByText('How to find out: Measure with the supply on').click();
  await page.getByRole('button', { name: 'Ring out, supply proven off' }).click();
  await expect(page.getByRole('heading', { name: 'Ring out' })).toBeVisible();
  await expect(pad(page)).toBeHidden();
  const steps = page.getByRole('group', { name: 'I confirm' });
  const boxes = await steps.getByRole('checkbox').all();
  await expect(boxes[1] as NonNullable<(typeof boxes)[1]>).toBeDisabled();
  for (const box of boxes) await box.click();
  await expect(page.getByText(/Absence of voltage verified by Invented Tester, .*20\d\d/)).toBeVisible();
  await expect(pad(page)).toBeVisible();
  await page.getByRole('button', { name: 'OL, over limit' }).click();
  await enter(page);
  await expect(page.getByText('open while lifted')).toBeVisible(READING);
  await type(page, '0.2');
  await expect(page.getByText('rung out: this far end is its own')).toBeVisible(READING);
  const numbered = page.getByLabel(/^Number \d+ is on both ends/);
  await numbered.check();
  await expect(page.getByText(/numbered at both ends by Invented Tester/)).toBeVisible();
  await expect(page.getByRole('region', { name: 'How far each is proved' })).not.toContainText('metered');
  await expectAccessible(page);
  // The supply comes back: nothing may be lifted on the old word.
  await page.getByRole('button', { name: 'Measure with the supply on' }).click();
  await page.getByRole('button', { name: 'Ring out, supply proven off' }).click();
  await expect(page.getByText(/Still to confirm: [1-9]/)).toBeVisible();
  await expect(pad(page)).toBeHidden();
});

test('dictation is not there where the browser cannot do it on the device', async ({ page }) => {
  await page.addInitScript(() => {
    // A recognizer that would work on a server.
    Object.assign(globalThis, { SpeechRecognition: class extends EventTarget {} });
  });
  await openScene(page);
  await passGate(page);
  await expect(pad(page)).toBeVisible(READING);
  await expect(page.getByRole('button', { name: 'Speak it' })).toBeHidden();
});

test('a dictated value fills the pad and still has to be entered', async ({ page }) => {
  await page.addInitScript(() => {
    class Fake extends EventTarget {
      get processLocally(): boolean {
        return true;
      }
      set processLocally(on: boolean) {
        if (!on) throw new Error('speech would leave the device');
      }
      start(): void {
        const results = [[{ transcript: '120.5 volts' }]];
        setTimeout(() => this.dispatchEvent(Object.assign(new Event('result'), { results })), 20);
      }
    }
    const available = async (o: { processLocally: boolean }) => (o.processLocally ? 'available' : 'unavailable');
    Object.assign(globalThis, { SpeechRecognition: Object.assign(Fake, { available }) });
  });
  await openScene(page);
  await passGate(page);
  await expect(page.getByText('nothing is sent')).toBeVisible(READING);
  await page.getByRole('button', { name: 'Speak it' }).click();
  await expect(pad(page).getByLabel('The meter shows')).toHaveValue('120.5');
  await expect(page.getByText('Last reading')).toBeHidden();
});
