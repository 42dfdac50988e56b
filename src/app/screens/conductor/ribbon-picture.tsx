import { useEffect, useRef } from 'react';
import type { NamedConductor } from '../../../flow';
import { straighten } from '../../geometry/straighten';
import { useBitmap } from '../../parts/picture/use-bitmap';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';

const LENGTH = 360;
const ACROSS = 48;

/** The conductor laid out straight and enlarged, as the camera saw it. */
export function RibbonPicture({ bench, conductor }: { readonly bench: Workbench; readonly conductor: NamedConductor }) {
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

  return (
    <figure className="ribbon">
      <canvas ref={ref} width={LENGTH} height={ACROSS} role="img" aria-label={t('screen.conductor.ribbon-alt')} />
      <figcaption className="soft">{t('screen.conductor.ribbon')}</figcaption>
    </figure>
  );
}
