import type { CaptureVerdict } from '../../../flow';
import type { ScreenCode } from '../../text/t';

/** What the live view says of a frame: how fit it is, and the one thing to do about it. */
export interface Advice {
  readonly verdict: CaptureVerdict['verdict'];
  readonly code: ScreenCode;
}

/** Short words for what a full sentence says of a photo once it was taken. */
const SHORT: Readonly<Record<string, ScreenCode>> = {
  'photo.capture.blurred': 'screen.live.blurred',
  'photo.capture.clipped': 'screen.live.clipped',
  'photo.capture.clipped-flash': 'screen.live.clipped',
  'photo.capture.dark': 'screen.live.dark',
  'photo.capture.noisy': 'screen.live.dark',
  'photo.capture.cast': 'screen.live.cast',
  'photo.capture.mixed-light': 'screen.live.mixed-light',
  'photo.capture.mixed-light-flash': 'screen.live.mixed-light',
  'photo.capture.few-pixels': 'screen.live.few-pixels',
  'photo.capture.thin': 'screen.live.thin',
};

/** The worst thing about a frame, or that nothing is wrong with it. */
export function adviceOf({ verdict, reasons }: CaptureVerdict): Advice {
  const [worst] = reasons;
  return { verdict, code: worst ? (SHORT[worst.code] ?? 'screen.live.limited') : 'screen.live.good' };
}

/** Frames that decide together. */
const LATEST = 7;

/**
 * The advice most of the latest frames give; on a tie the one shown before stays, so that words don't flicker while
 * they are being read. `latest` is not changed.
 */
export function steadyAdvice(
  latest: readonly Advice[],
  next: Advice,
  shown: Advice | null,
): { readonly latest: readonly Advice[]; readonly shown: Advice } {
  const kept = [...latest, next].slice(-LATEST);
  const votes = (code: ScreenCode): number => kept.filter((one) => one.code === code).length;
  let best = shown && votes(shown.code) > 0 ? shown : next;
  for (const one of kept) if (votes(one.code) > votes(best.code)) best = one;
  // Same words, newest verdict: the same fault may have become worse.
  return { latest: kept, shown: kept.findLast((one) => one.code === best.code) ?? best };
}
