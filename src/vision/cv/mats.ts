import type { Cv, CvMat } from './facade';
import { cvError } from './load';

let live = 0;

/** Mats made through `withMats` and not yet deleted; 0 between calls (tested). */
export const liveMats = (): number => live;

/**
 * Runs `work` with a maker of Mats and deletes every one of them afterwards, also when `work` throws.
 * What leaves must be copied out of the wasm heap.
 */
export function withMats<T>(cv: Cv, work: (make: (rows?: number, cols?: number, type?: number) => CvMat) => T): T {
  const made: CvMat[] = [];
  const make = (rows?: number, cols?: number, type?: number): CvMat => {
    const mat = rows === undefined ? new cv.Mat() : new cv.Mat(rows, cols ?? 1, type ?? cv.CV_8UC1);
    made.push(mat);
    live++;
    return mat;
  };
  try {
    return work(make);
  } catch (thrown) {
    throw typeof thrown === 'number' ? cvError(cv, thrown) : thrown;
  } finally {
    for (const mat of made) mat.delete();
    live -= made.length;
  }
}
