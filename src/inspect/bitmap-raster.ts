import { Problem, type Raster } from '../flow';
import type { CameraFrame } from './protocol';

/** Pixels of both views of a camera frame; closes them. Worker only. */
export function rastersOf({ whole, detail }: CameraFrame): { readonly whole: Raster; readonly detail: Raster } {
  try {
    return { whole: rasterOf(whole), detail: rasterOf(detail) };
  } finally {
    whole.close();
    detail.close();
  }
}

function rasterOf(bitmap: ImageBitmap): Raster {
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Problem('engine unavailable');
  context.drawImage(bitmap, 0, 0);
  const { data } = context.getImageData(0, 0, width, height, { colorSpace: 'srgb' });
  return { width, height, data };
}
