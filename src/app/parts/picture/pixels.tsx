import { useEffect, useRef } from 'react';
import type { Size, View } from '../../geometry/view';

interface PixelsProps {
  readonly bitmap: ImageBitmap;
  /** Working size; the bitmap may be larger where the browser cannot shrink while decoding. */
  readonly picture: Size;
  readonly view: View;
  readonly window: Size;
}

/** The photo drawn at its place in the window, sharp on dense screens. */
export function Pixels({ bitmap, picture, view, window }: PixelsProps) {
  const ref = useRef<HTMLCanvasElement>(null);
  const density = Math.min(2, globalThis.devicePixelRatio || 1);
  const width = Math.round(window.width * density);
  const height = Math.round(window.height * density);
  useEffect(() => {
    const context = ref.current?.getContext('2d');
    if (!context) return;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, width, height);
    const scale = view.scale * density;
    context.imageSmoothingEnabled = scale < 4;
    context.setTransform(scale, 0, 0, scale, view.x * density, view.y * density);
    context.drawImage(bitmap, 0, 0, picture.width, picture.height);
  }, [bitmap, picture, view, density, width, height]);
  return <canvas ref={ref} width={width} height={height} />;
}
