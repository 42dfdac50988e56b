import type { StatedAccuracy } from '../../flow';

const KEY = 'meter-accuracy';

const fits = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value) && value >= 0;

/** What the user last said of his meter; null when nothing, or when storage is switched off. */
export function rememberedAccuracy(): StatedAccuracy | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null || !('percent' in kept) || !('volts' in kept)) return null;
    const { percent, volts } = kept;
    return fits(percent) && fits(volts) ? { percent, volts } : null;
  } catch {
    return null;
  }
}

/** Remembered for the next job, where the browser lets it be; null forgets it. */
export function rememberAccuracy(accuracy: StatedAccuracy | null): void {
  try {
    if (accuracy) localStorage.setItem(KEY, JSON.stringify(accuracy));
    else localStorage.removeItem(KEY);
  } catch {
    // A private window: it is asked for anew.
  }
}
