import { useEffect, useState } from 'react';
import type { Size } from '../../geometry/view';

export type BitmapState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly bitmap: ImageBitmap }
  | { readonly kind: 'missing' };

/**
 * The photo's pixels at working size, upright. The bitmap is closed when the photo changes or the picture leaves the
 * screen; nobody else may keep it. `bytes` null: still being fetched; undefined: not on this device.
 */
export function useBitmap(bytes: Blob | null | undefined, { width, height }: Size): BitmapState {
  const [state, setState] = useState<BitmapState>({ kind: 'loading' });
  useEffect(() => {
    if (bytes === undefined) {
      setState({ kind: 'missing' });
      return undefined;
    }
    setState({ kind: 'loading' });
    if (!bytes) return undefined;
    let current = true;
    let bitmap: ImageBitmap | null = null;
    createImageBitmap(bytes, { resizeWidth: width, resizeHeight: height, resizeQuality: 'medium' }).then(
      (made) => {
        if (!current) {
          made.close();
          return;
        }
        bitmap = made;
        setState({ kind: 'ready', bitmap: made });
      },
      () => {
        if (current) setState({ kind: 'missing' });
      },
    );
    return () => {
      current = false;
      bitmap?.close();
    };
  }, [bytes, width, height]);
  return state;
}
