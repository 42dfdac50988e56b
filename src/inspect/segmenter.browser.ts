import { createClassicalSegmenter, type Segmenter } from '../vision';

/** The best segmenter that runs in this browser. */
export async function openSegmenter(): Promise<Segmenter> {
  return createClassicalSegmenter();
}
