import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { Problem } from '../../../flow';
import { type Camera, openCamera } from '../../../photo/camera.browser';
import { Deck } from '../../parts/deck';
import { FileKey } from '../../parts/file-key';
import { Icon } from '../../parts/icon';
import { ProblemNote } from '../../parts/problem-note';
import { type Journey, to } from '../../routes';
import { useServices } from '../../services/context';
import type { PlaceOfWork } from '../../state/place-photo';
import { toProblem } from '../../state/to-problem';
import { useReading } from '../../state/use-reading';
import { t } from '../../text/t';
import { MIDDLE, type Place } from './grab-frame';
import { LiveNote } from './live-note';
import { LiveOutlines } from './live-outlines';
import { Loupe, LoupeRing } from './loupe';
import { placeAt } from './place-at';
import { useLiveView } from './use-live-view';

/** File types offered first by the chooser; what the bytes really are is found out later. */
const PICTURES = 'image/*,.heic,.heif';

interface ShootProps {
  readonly journey: Journey;
  /** Id of the open job that gets the photo; absent: a new job. */
  readonly job?: string;
  /** Termination of that job that is photographed. */
  readonly at?: PlaceOfWork;
}

/** Live back camera with torch and frozen frame; a photo file is always one key away. */
export function ShootScreen({ journey, job, at }: ShootProps) {
  const { start } = useReading();
  const { engine } = useServices();
  const video = useRef<HTMLVideoElement>(null);
  const [camera, setCamera] = useState<Camera | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  /** The camera has delivered a frame; before that there is nothing to take. */
  const [showing, setShowing] = useState(false);
  const [torch, setTorch] = useState(false);
  const [frozen, setFrozen] = useState<ArrayBuffer | null>(null);
  const [attempt, setAttempt] = useState(0);
  const [aim, setAim] = useState<Place>(MIDDLE);
  const loupe = journey === 'hue' ? aim : null;
  const live = useLiveView(video, camera && showing ? (frozen ? 'still' : 'live') : 'off', loupe);

  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt opens the camera anew
  useEffect(() => {
    let current = true;
    let opened: Camera | null = null;
    const lost = (failure: Problem): void => {
      if (!current) return;
      setCamera(null);
      setProblem(failure);
    };
    setProblem(null);
    setFrozen(null);
    openCamera(lost).then(
      (found) => {
        if (!current) {
          found.stop();
          return;
        }
        opened = found;
        setCamera(found);
      },
      (error: unknown) => lost(toProblem(error)),
    );
    return () => {
      current = false;
      opened?.stop();
    };
  }, [attempt]);

  // A photo is about to come: while it is taken or chosen, the engine starts.
  useEffect(() => engine.warmUp(), [engine]);

  useEffect(() => {
    const shown = video.current;
    if (shown) shown.srcObject = camera?.stream ?? null;
    return () => {
      // Nothing of the stream stays with a video that has left the page.
      if (shown) shown.srcObject = null;
    };
  }, [camera]);

  const arrive = (bytes: Blob, name: string): void =>
    start({ bytes, name, journey, intoOpenJob: job !== undefined, ...(at && { at }) });
  const attemptWith = (work: (camera: Camera, shown: HTMLVideoElement) => Promise<void>): void => {
    if (camera && video.current) work(camera, video.current).catch((error: unknown) => setProblem(toProblem(error)));
  };
  const shoot = (): void => attemptWith(async (c, v) => setFrozen(await c.freeze(v)));
  const retake = (): void =>
    attemptWith(async (c, v) => {
      setFrozen(null);
      await c.retake(v);
    });

  return (
    <div className="page shoot">
      <header className="bar">
        <Link
          className="key"
          href={job && at ? to.termination(job, at.id) : job ? to.job(job) : to.start}
          aria-label={t('screen.back')}
        >
          <Icon name="back" />
        </Link>
        <h1 className="bar-title">{t(`screen.shoot.${journey}`)}</h1>
      </header>
      <main className="finder">
        {/* The element stays while the camera opens, so that the stream has somewhere to go. */}
        <video
          ref={video}
          autoPlay
          muted
          playsInline
          aria-label={t('screen.shoot.view')}
          hidden={!camera}
          onPointerDown={({ currentTarget, clientX, clientY }) => {
            const place = loupe && placeAt(currentTarget, clientX, clientY);
            if (place) setAim(place);
          }}
          onPlaying={() => setShowing(true)}
          onEmptied={() => setShowing(false)}
        />
        {!camera && !problem && <p role="status">{t('screen.shoot.opening')}</p>}
        {problem && (
          <ProblemNote problem={problem}>
            <button type="button" className="key" onClick={() => setAttempt((n) => n + 1)}>
              {t('screen.shoot.camera-again')}
            </button>
          </ProblemNote>
        )}
        {live && <LiveOutlines glance={live.glance} perSecond={live.perSecond} />}
        {live && <LiveNote live={live} frozen={frozen !== null} />}
        {live && loupe && <LoupeRing live={live} aim={loupe} />}
        <div className="finder-foot">
          {live && loupe && <Loupe video={video} live={live} aim={loupe} onAim={setAim} />}
          <p className="finder-tip">{t(`screen.shoot.${journey}.tip`)}</p>
        </div>
      </main>
      <Deck>
        {journey === 'record' && job === undefined && (
          <Link className="key wide" href={to.newTurnover}>
            {t('screen.shoot.schedule-first')}
          </Link>
        )}
        <div className="deck-row">
          {frozen ? (
            <>
              <button type="button" className="key" onClick={retake}>
                {t('screen.shoot.retake')}
              </button>
              <button
                type="button"
                className="key main"
                onClick={() => arrive(new Blob([frozen], { type: 'image/jpeg' }), t('screen.shoot.frame-name'))}
              >
                {t('screen.shoot.use')}
              </button>
            </>
          ) : (
            <>
              <FileKey accept={PICTURES} className="key tool" onFile={(file) => arrive(file, file.name)}>
                <Icon name="file" />
                {t('screen.shoot.file')}
              </FileKey>
              <button type="button" className="key main" disabled={!camera || !showing} onClick={shoot}>
                <Icon name="lens" />
                {t('screen.shoot.take')}
              </button>
              <button
                type="button"
                className="key tool"
                aria-pressed={torch}
                disabled={!camera?.hasTorch}
                onClick={() => attemptWith(async (c) => setTorch(await c.setTorch(!torch)))}
              >
                <Icon name="torch" />
                {t(camera && !camera.hasTorch ? 'screen.shoot.no-torch' : 'screen.shoot.torch')}
              </button>
            </>
          )}
        </div>
      </Deck>
    </div>
  );
}
