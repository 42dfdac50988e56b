import type { Page } from '@playwright/test';

/** More stops than any screen here has. */
const MOST = 200;

/**
 * Goes through the page by Tab alone, as somebody without a pointer does, and says what is wrong: a stop that shows no
 * focus, that lies outside of the window or under something else (WCAG 2.2, 2.4.7 and 2.4.11), a key that is never
 * reached (2.1.1), a walk that does not come to its end (2.1.2).
 */
export async function keyboardFaults(page: Page): Promise<readonly string[]> {
  const faults = new Set<string>();
  await page.evaluate(() => {
    Object.assign(globalThis, { stops: new Set<Element>() });
    document.body.tabIndex = -1;
    document.body.focus();
    document.body.removeAttribute('tabindex');
  });
  let stops = 0;
  for (; stops < MOST; stops++) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate(() => {
      const { stops: seen } = globalThis as unknown as { stops: Set<Element> };
      const stop = document.activeElement;
      if (!(stop instanceof HTMLElement) || stop === document.body || seen.has(stop)) return null;
      seen.add(stop);
      const label = (stop as HTMLInputElement).labels?.[0]?.textContent;
      const name = (stop.getAttribute('aria-label') ?? (label || stop.textContent) ?? '').trim().slice(0, 40);
      const { outlineStyle, boxShadow } = getComputedStyle(stop);
      const { left, right, top, bottom } = stop.getBoundingClientRect();
      // Success criterion 2.4.11 asks that some of it is seen: a field of several lines is scrolled to its first.
      const inSight = [0.1, 0.5, 0.9].some((down) => {
        const at = document.elementFromPoint((left + right) / 2, top + down * (bottom - top));
        return at !== null && (stop.contains(at) || at.contains(stop));
      });
      return [
        ...(outlineStyle === 'none' && boxShadow === 'none' ? [`no focus shown: ${name}`] : []),
        ...(inSight ? [] : [`not in sight: ${name}`]),
      ];
    });
    if (!found) break;
    for (const fault of found) faults.add(fault);
  }
  if (stops === MOST) faults.add('the walk does not end');
  const left = await page.evaluate(() => {
    const { stops: seen } = globalThis as unknown as { stops: Set<Element> };
    return [...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary')]
      .filter((e) => e.checkVisibility() && e.tabIndex >= 0 && !e.matches(':disabled, [type=radio]') && !seen.has(e))
      .map((e) => `never reached: ${(e.getAttribute('aria-label') ?? e.textContent ?? '').trim().slice(0, 40)}`);
  });
  return [...faults, ...left];
}
