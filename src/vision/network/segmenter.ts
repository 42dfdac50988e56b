import { tensor4d } from '@tensorflow/tfjs-core';
import { Problem, type Raster, throwIfCancelled } from '../../flow';
import type { Segmentation, Segmenter } from '../segmenter';
import { decode } from './decode';
import { deviceLost, unlessLost } from './device-lost';
import type { Graph } from './graph';
import { readScores } from './planes';
import { sampleWindow } from './sample';

/**
 * Most pixels given to the network, whatever the photo's size: with all that surrounds it, any photo then costs less
 * than four bare runs at 512 px. Photos of 1600 px found as much with it as at 0.8 of their size (models/README.md).
 */
const BUDGET = 2.75 * 512 * 512;
/** Pixels given to the network for a frame of the live view: 5 frames a second with room to spare. */
const GLANCE_BUDGET = 0.25 * 512 * 512;
/** Small photos are enlarged as far as the budget allows, up to this much. */
const MOST_SCALE = 1.4;

/**
 * How large a photo is shown to the network. One look at nearly full size found more on labelled photos, at the same
 * cost, than a look at half size with closer looks at parts of it (models/README.md has the figures).
 */
export function lookSize(
  width: number,
  height: number,
  multiple: number,
  budget = BUDGET,
): { width: number; height: number } {
  const scale = Math.min(MOST_SCALE, Math.sqrt(budget / (width * height)));
  const rounded = (v: number): number => Math.max(2 * multiple, Math.round((v * scale) / multiple) * multiple);
  return { width: rounded(width), height: rounded(height) };
}

/**
 * The network as a segmenter. It owns `graph` and disposes it. Use one at a time: runs share one device.
 * @param backend what computes it; part of the name that the record keeps
 */
export function createNetworkSegmenter(graph: Graph, backend: string): Segmenter {
  const { multiple, version, calibration } = graph.manifest;
  const name = `network ${version} on ${backend}`;

  async function look(
    raster: Raster,
    budget: number,
    signal?: AbortSignal,
    onProgress?: (share: number) => void,
  ): Promise<Segmentation> {
    throwIfCancelled(signal);
    const { width, height } = raster;
    const size = lookSize(width, height, multiple, budget);
    try {
      const pixels = sampleWindow(raster, { x: 0, y: 0, width, height }, size.width, size.height);
      const input = tensor4d(pixels, [1, size.height, size.width, 3]);
      onProgress?.(0.1);
      const scores = await unlessLost(readScores(graph.runPacked(input), graph.manifest)).finally(() =>
        input.dispose(),
      );
      if (deviceLost()) throw new Problem('engine failed', undefined, new Error('the graphics processor was lost'));
      throwIfCancelled(signal);
      onProgress?.(0.8);
      const planes = decode(scores, width, height, name, calibration);
      onProgress?.(1);
      return planes;
    } catch (cause) {
      throw cause instanceof Problem ? cause : new Problem('engine failed', undefined, cause);
    }
  }

  return {
    name,
    segment: (raster, signal, onProgress) => look(raster, BUDGET, signal, onProgress),
    glance: (raster) => look(raster, GLANCE_BUDGET),
    dispose() {
      graph.dispose();
    },
  };
}
