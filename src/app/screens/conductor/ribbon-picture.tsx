import { useEffect, useRef } from 'react';
import type { NamedConductor } from '../../../flow';
import { straighten } from '../../geometry/straighten';
import { useBitmap } from '../../parts/picture/use-bitmap';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { MarkLane } from './mark-lane';
import { MarkList } from './mark-list';
import { type Correctable, marksOf } from './marks';

const LENGTH = 360;
const ACROSS = 48;

interface RibbonPictureProps {
  readonly bench: Workbench;
  readonly conductor: NamedConductor;
  readonly onCorrect: (what: Exclude<Correctable, null>) => void;
}

/** The conductor laid out straight and enlarged, as the camera saw it, with what was read along it. */
export function RibbonPicture({ bench, conductor, onCorrect }: RibbonPictureProps) {
  const ref = useRef<HTMLCanvasElement>(null);
  const state = useBitmap(bench.bytes, bench.size);
  const bitmap = state.kind === 'ready' ? state.bitmap : null;
  const { width, height } = bench.size;
  const { centerline, widthPx } = conductor;

  useEffect(() => {
    const context = ref.current?.getContext('2d');
    const source = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
    if (!context || !source || !bitmap) return;
    source.drawImage(bitmap, 0, 0, width, height);
    const raster = source.getImageData(0, 0, width, height);
    const strip = straighten(raster, centerline, widthPx, LENGTH, ACROSS);
    context.putImageData(new ImageData(strip.data, strip.width, strip.height), 0, 0);
  }, [bitmap, centerline, widthPx, width, height]);

  const marks = marksOf(conductor);
  return (
    <>
      <figure className="ribbon">
        <canvas ref={ref} width={LENGTH} height={ACROSS} role="img" aria-label={t('screen.conductor.ribbon-alt')} />
        {marks.length > 0 && <MarkLane marks={marks} />}
        <figcaption className="soft">{t('screen.conductor.ribbon')}</figcaption>
      </figure>
      <MarkList marks={marks} conductor={conductor} onCorrect={onCorrect} />
    </>
  );
}
