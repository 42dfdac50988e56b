import { Problem } from '../flow';
import type { Segmenter } from '../vision';

/**
 * The network where it loads and proves itself, else the classical segmenter: finding less is better than finding
 * nothing, and findings say which one it was. Any other failure than 'engine unavailable' is a fault and is not hidden.
 */
export async function bestSegmenter(load: () => Promise<Segmenter>, fallback: () => Segmenter): Promise<Segmenter> {
  try {
    return await load();
  } catch (error) {
    if (!(error instanceof Problem) || error.kind !== 'engine unavailable') throw error;
    console.warn('network segmenter unavailable, using the classical one', error.cause);
    return fallback();
  }
}
