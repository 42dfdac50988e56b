import { type RefObject, useEffect, useState } from 'react';
import type { Glance, PassingColor } from '../../../inspect';
import { useServices } from '../../services/context';
import { type Advice, adviceOf, steadyAdvice } from './advice';
import { grabFrame, type Place } from './grab-frame';
import { steadyColor } from './steady-color';

/** What lies over the camera picture now. */
export interface LiveView {
  readonly glance: Glance;
  readonly advice: Advice;
  /** What passes in the loupe; null where there is no conductor, or nothing is aimed at. */
  readonly color: PassingColor | null;
  /** Frames looked at per second, over the latest ones. */
  readonly perSecond: number;
}

/** `live`: frame after frame. `still`: the frozen frame, once. `off`: nothing, and nothing is kept. */
export type LiveMode = 'live' | 'still' | 'off';

/** Faster than this gains nothing and warms the phone. */
const LEAST_MS = 80;
/** A page in the background is not looked at. */
const HIDDEN_MS = 500;
const TIMES_KEPT = 10;

const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/**
 * Looks at the camera's frames one after the other while `mode` asks for it. A frame is asked for only when the one
 * before was answered, so nothing piles up; when the screen goes, the answer under way is dropped. Null before the
 * first answer, and when looking failed: a photo can be taken all the same. `aim`: where a color is looked at in passing.
 */
export function useLiveView(
  video: RefObject<HTMLVideoElement | null>,
  mode: LiveMode,
  aim: Place | null,
): LiveView | null {
  const { engine } = useServices();
  const [live, setLive] = useState<LiveView | null>(null);

  useEffect(() => {
    if (mode === 'off') {
      setLive(null);
      return;
    }
    let current = true;
    let latest: readonly Advice[] = [];
    let shown: Advice | null = null;
    let colors: readonly PassingColor[] = [];
    // What was seen elsewhere says nothing of the new place.
    setLive((before) => before && { ...before, color: null });
    const times: number[] = [];

    const lookOnce = async (): Promise<void> => {
      const frame = video.current ? await grabFrame(video.current, aim) : undefined;
      if (!frame) return;
      if (!current) {
        frame.whole.close();
        frame.detail.close();
        return;
      }
      const glance = await engine.glance(frame);
      if (!current) return;
      ({ latest, shown } = steadyAdvice(latest, adviceOf(glance.capture), shown));
      const steady = steadyColor(colors, glance.aimed ?? null);
      colors = steady.latest;
      times.push(performance.now());
      if (times.length > TIMES_KEPT) times.shift();
      const span = times.at(-1)! - times[0]!;
      setLive({
        glance,
        advice: shown,
        color: steady.shown,
        perSecond: span > 0 ? (1000 * (times.length - 1)) / span : 0,
      });
    };
    const run = async (): Promise<void> => {
      do {
        const begun = performance.now();
        if (document.hidden) await wait(HIDDEN_MS);
        else await lookOnce();
        await wait(Math.max(0, LEAST_MS - (performance.now() - begun)));
      } while (current && mode === 'live');
    };
    run().catch((error: unknown) => {
      if (!current) return;
      console.warn('live view stopped', error);
      setLive(null);
    });
    return () => {
      current = false;
    };
  }, [engine, video, mode, aim]);

  return live;
}
