import { createClassicalSegmenter, type Segmenter } from '../vision';
import { loadNetworkInBrowser } from '../vision/network/network.browser';
import { bestSegmenter } from './best-segmenter';

/** The best segmenter that runs in this browser. */
export const openSegmenter = (): Promise<Segmenter> =>
  bestSegmenter(() => loadNetworkInBrowser(), createClassicalSegmenter);
