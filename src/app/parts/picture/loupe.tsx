import { useEffect, useRef } from 'react';
import type { Point } from '../../../flow';
import type { Size } from '../../geometry/view';

const SIZE = 144;

interface LoupeProps {
  readonly bitmap: ImageBitmap;
  readonly picture: Size;
  /** Aim in picture pixels. */
  readonly at: Point;
  /** CSS pixels a picture pixel takes in the loupe. */
  readonly scale: number;
  readonly side: 'left' | 'right';
}

/** What lies under the fingertip, enlarged, on the side where the hand is not. */
export function Loupe({ bitmap, picture, at, scale, side }: LoupeProps) {
  const ref = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = ref.current?.getContext('2d');
    if (!context) return;
    context.setTransform(scale, 0, 0, scale, SIZE / 2 - at[0] * scale, SIZE / 2 - at[1] * scale);
    context.clearRect(0, 0, picture.width, picture.height);
    context.imageSmoothingEnabled = false;
    context.drawImage(bitmap, 0, 0, picture.width, picture.height);
  }, [bitmap, picture, at, scale]);
  return (
    <div className="loupe" style={{ [side]: '0.5rem' }} aria-hidden="true">
      <canvas ref={ref} width={SIZE} height={SIZE} />
    </div>
  );
}
