import { type RefObject, useEffect, useRef } from 'react';
import { CablePiece } from '../../parts/cable';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';
import { FrameOverlay } from './frame-overlay';
import { MIDDLE, type Place } from './grab-frame';
import type { LiveView } from './use-live-view';

/** Side of the piece that is enlarged, as a share of the picture's width. */
const PIECE = 1 / 10;
/** Side of the enlarged piece on the screen, CSS pixels; drawn twice as fine. */
const SIDE = 88;
/** Names shown; more than that is "not decided". */
const SHOWN = 4;
/** From here on what lies in the ring is told as bare metal. */
const BARE = 0.5;

interface LoupeProps {
  readonly video: RefObject<HTMLVideoElement | null>;
  readonly live: LiveView;
  readonly aim: Place;
  readonly onAim: (place: Place) => void;
}

/** The piece of the camera picture that is aimed at, enlarged, with what passes there. Nothing of it goes any further. */
export function Loupe({ video, live, aim, onAim }: LoupeProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn anew with each frame that was looked at
  useEffect(() => {
    const shown = video.current;
    const context = canvas.current?.getContext('2d');
    if (!shown?.videoWidth || !context) return;
    const side = PIECE * shown.videoWidth;
    const [x, y] = [aim[0] * shown.videoWidth, aim[1] * shown.videoHeight];
    context.drawImage(shown, x - side / 2, y - side / 2, side, side, 0, 0, 2 * SIDE, 2 * SIDE);
  }, [video, live, aim]);
  return (
    <section className="passing" aria-label={t('screen.loupe.title')}>
      <div className="passing-glass" aria-hidden="true">
        <canvas ref={canvas} width={2 * SIDE} height={2 * SIDE} />
      </div>
      <div className="passing-words">
        <p>
          <b>{t('screen.loupe.title')}</b>
        </p>
        <PassingNames live={live} />
        <p className="passing-caution">{t('screen.loupe.passing')}</p>
      </div>
      {aim !== MIDDLE && (
        <button type="button" className="key" onClick={() => onAim(MIDDLE)}>
          {t('screen.loupe.middle')}
        </button>
      )}
    </section>
  );
}

function PassingNames({ live: { color, glance } }: { readonly live: LiveView }) {
  if (!glance.looked) return <p>{t('screen.live.no-outlines')}</p>;
  if (!color) return <p>{t('screen.loupe.nothing')}</p>;
  if (color.bare > BARE) return <p>{t('screen.color.bare')}</p>;
  return (
    <ul className="passing-names">
      {color.names.slice(0, SHOWN).map((c) => (
        <li key={c.name}>
          <CablePiece name={c.name} /> {percent(c.probability)}
        </li>
      ))}
    </ul>
  );
}

/** Where the loupe looks, over the camera picture. */
export function LoupeRing({ live: { glance }, aim }: { readonly live: LiveView; readonly aim: Place }) {
  const at = { cx: aim[0] * glance.width, cy: aim[1] * glance.height };
  return (
    <FrameOverlay glance={glance}>
      <circle className="passing-ring-under" {...at} r={9} />
      <circle className="passing-ring" {...at} r={9} />
    </FrameOverlay>
  );
}
