import { createClassicalSegmenter, type Segmenter } from '../vision';
import { loadNetworkInNode } from '../vision/network/network.node.ts';
import { bestSegmenter } from './best-segmenter';

/** The best segmenter that runs in Node. */
export const openSegmenter = (): Promise<Segmenter> => bestSegmenter(loadNetworkInNode, createClassicalSegmenter);
