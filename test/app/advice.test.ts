import { describe, expect, test } from 'vitest';
import { type Advice, adviceOf, steadyAdvice } from '../../src/app/screens/shoot/advice';
import { message } from '../../src/flow';
import { findings } from './fixtures/findings';

const { capture } = findings([]);
const blurred: Advice = { verdict: 'limited', code: 'screen.live.blurred' };
const good: Advice = { verdict: 'good', code: 'screen.live.good' };

/** What is shown after each of these frames. */
function shownAfter(frames: readonly Advice[]): readonly string[] {
  let state: { latest: readonly Advice[]; shown: Advice | null } = { latest: [], shown: null };
  return frames.map((frame) => {
    const next = steadyAdvice(state.latest, frame, state.shown);
    state = next;
    return next.shown.code;
  });
}

describe('advice over the camera picture', () => {
  test('the worst reason in short words; nothing wrong is said as such', () => {
    const dark = { ...capture, verdict: 'retake' as const, reasons: [message('photo.capture.dark'), message('x')] };
    expect(adviceOf(dark)).toEqual({ verdict: 'retake', code: 'screen.live.dark' });
    expect(adviceOf(capture)).toEqual(good);
  });

  test('a reason without short words is still no good picture', () => {
    const other = { ...capture, verdict: 'limited' as const, reasons: [message('photo.capture.animated')] };
    expect(adviceOf(other).code).toBe('screen.live.limited');
  });

  test('one frame does not change the words, a lasting change does', () => {
    const shown = shownAfter([good, good, good, blurred, good, blurred, blurred, blurred, blurred]);
    expect(shown.slice(0, 6)).toEqual(Array(6).fill(good.code));
    expect(shown.at(-1)).toBe(blurred.code);
  });

  test('the same fault shown with its newest weight', () => {
    const worse: Advice = { verdict: 'retake', code: 'screen.live.blurred' };
    const first = steadyAdvice([], blurred, null);
    expect(steadyAdvice(first.latest, worse, first.shown).shown.verdict).toBe('retake');
  });
});
