import { useMemo, useRef } from 'react';
import type { ColorReference, NamedConductor, Point, Standing } from '../../../flow';
import { conductorAt } from '../../geometry/hit';
import { pan, type Size, toPicture, toWindow, wholeView, zoomAt } from '../../geometry/view';
import { t } from '../../text/t';
import { Icon } from '../icon';
import { CrossingMarks } from './crossing-marks';
import { LengthLine } from './length-line';
import { Loupe } from './loupe';
import { Pixels } from './pixels';
import { StrokeLine } from './stroke-line';
import { Traces } from './traces';
import { useBitmap } from './use-bitmap';
import { useCrosshair } from './use-crosshair';
import { useGestures } from './use-gestures';
import { useShowSelected } from './use-show-selected';
import { useSize } from './use-size';
import { useView } from './use-view';
import { useWheelZoom } from './use-wheel-zoom';

/** What a touch on the picture means. */
export type PictureMode = 'look' | 'draw' | 'reference' | 'split' | 'join' | 'crossing' | 'length';

interface StageProps {
  readonly bytes: Blob | null | undefined;
  readonly picture: Size;
  readonly conductors: readonly NamedConductor[];
  readonly references: readonly ColorReference[];
  readonly selected: string | null;
  readonly outlines: boolean;
  readonly mode: PictureMode;
  readonly stroke: readonly Point[];
  /** Both ends of a known length, or the one that was touched first, if any. */
  readonly length: readonly Point[];
  /** Numbered places, in the order of the keys that speak of them. */
  readonly crossings: readonly Point[];
  readonly standingOf: (conductor: string) => Standing;
  readonly labelOf: (conductor: string) => string;
  /** What a tag says where there is room, number included; absent: the number. */
  readonly tagOf?: ((conductor: string) => string) | undefined;
  /** A place of the picture was touched; `conductor` lies there, if any. Picture pixels. */
  readonly onTouch: (at: Point, conductor: NamedConductor | null) => void;
  readonly onDraw: (at: Point) => void;
}

/** Extra reach of a gloved fingertip, CSS pixels. */
const REACH = 14;

/** The photo with its conductors: zoom, pan, loupe, touch and keyboard. */
export function Stage(props: StageProps) {
  const { bytes, picture, conductors, selected, mode, stroke } = props;
  const frame = useRef<HTMLDivElement>(null);
  const window = useSize(frame);
  const [view, change] = useView(picture, window);
  const bitmap = useBitmap(bytes, picture);
  const drawing = mode === 'draw';
  const center = useMemo<Point>(() => (window ? [window.width / 2, window.height / 2] : [0, 0]), [window]);

  const touch = (at: Point): void => {
    if (!view) return;
    const place = toPicture(view, at);
    const [x, y] = place;
    if (x < 0 || y < 0 || x >= picture.width || y >= picture.height) return;
    if (drawing) props.onDraw(place);
    else props.onTouch(place, conductorAt(conductors, place, REACH / view.scale));
  };
  const zoom = (at: Point, factor: number): void => {
    if (window) change((v) => zoomAt(v, at, factor, picture, window));
  };
  const { aim, bind } = useGestures(drawing, {
    onTap: touch,
    onDraw: touch,
    onPan: (dx, dy) => window && change((v) => pan(v, dx, dy, picture, window)),
    onPinch: (at, factor, dx, dy) => {
      if (window) change((v) => pan(zoomAt(v, at, factor, picture, window), dx, dy, picture, window));
    },
  });
  const { crosshair, bind: bindKeys } = useCrosshair(window, { onTap: touch, onZoom: (f) => zoom(center, f) });

  useWheelZoom(frame, zoom);
  useShowSelected(
    conductors.find((c) => c.id === selected),
    picture,
    window,
    change,
  );

  return (
    <div className="picture" ref={frame}>
      {bitmap.kind === 'ready' && view && window && (
        <Pixels bitmap={bitmap.bitmap} picture={picture} view={view} window={window} />
      )}
      {bitmap.kind !== 'ready' && (
        <p className="picture-empty">
          {t(bitmap.kind === 'loading' ? 'screen.picture.loading' : 'screen.picture.missing')}
        </p>
      )}
      {view && (
        <svg aria-hidden="true">
          {props.outlines && (
            <Traces
              conductors={conductors}
              view={view}
              window={window}
              selected={selected}
              standingOf={props.standingOf}
              labelOf={props.labelOf}
              tagOf={props.tagOf}
            />
          )}
          {props.references.map((r) => {
            const [x, y] = toWindow(view, r.at);
            return (
              <path key={`${r.at[0]}-${r.at[1]}`} className="reference-mark" d={`M${x - 9} ${y - 9}h18v18h-18z`} />
            );
          })}
          <CrossingMarks places={props.crossings} view={view} />
          <StrokeLine stroke={stroke} view={view} />
          <LengthLine ends={props.length} view={view} />
          {crosshair && (
            <path
              className="crosshair"
              d={`M${crosshair[0] - 16} ${crosshair[1]}h32M${crosshair[0]} ${crosshair[1] - 16}v32`}
            />
          )}
        </svg>
      )}
      <div
        className="picture-window"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the crosshair is the keyboard's way to touch the picture
        tabIndex={0}
        aria-label={t('screen.picture.label', { count: conductors.length })}
        aria-describedby="picture-keys"
        {...bind}
        {...bindKeys}
      />
      <p id="picture-keys" className="unseen">
        {t('screen.picture.keys')}
      </p>
      {aim && view && bitmap.kind === 'ready' && (
        <Loupe
          bitmap={bitmap.bitmap}
          picture={picture}
          at={toPicture(view, aim)}
          scale={Math.max(4, view.scale * 3)}
          side={aim[0] < center[0] ? 'right' : 'left'}
        />
      )}
      <div className="zoom-keys">
        <button type="button" className="key" aria-label={t('screen.picture.closer')} onClick={() => zoom(center, 1.6)}>
          <Icon name="plus" />
        </button>
        <button
          type="button"
          className="key"
          aria-label={t('screen.picture.farther')}
          onClick={() => zoom(center, 1 / 1.6)}
        >
          <Icon name="minus" />
        </button>
        <button
          type="button"
          className="key"
          aria-label={t('screen.picture.whole')}
          onClick={() => window && change(() => wholeView(picture, window))}
        >
          <Icon name="whole" />
        </button>
      </div>
    </div>
  );
}
