import { tensor4d } from '@tensorflow/tfjs-core';
import { Problem, type Raster, throwIfCancelled } from '../../flow';
import type { Segmenter } from '../segmenter';
import { decode } from './decode';
import type { Graph } from './graph';
import { emptyWhole, mergeScores } from './merge';
import { readScores, type Scores } from './planes';
import { sampleWindow, type Window } from './sample';
import { planTiles } from './tiles';

/** The first look sees the photo at this share of its size. */
const COARSE = 0.5;
/** Pixels the second look may give to the network: with the first, a 1200 px photo costs less than four 512 px runs. */
const FINE_BUDGET = 4 * 512 * 512;
/** A closer look counts as much as the first one. */
const FINE_SHARE = 0.5;

/** The network as a segmenter. It owns `graph` and disposes it. Use one at a time: runs share one device. */
export function createNetworkSegmenter(graph: Graph): Segmenter {
  const { multiple, version, calibration } = graph.manifest;
  const name = `network ${version}`;
  const look = async (raster: Raster, window: Window, width: number, height: number): Promise<Scores> => {
    const input = tensor4d(sampleWindow(raster, window, width, height), [1, height, width, 3]);
    try {
      return await readScores(graph.run(input), graph.manifest);
    } finally {
      input.dispose();
    }
  };
  const roundToMultiple = (v: number): number => Math.max(2 * multiple, Math.round(v / multiple) * multiple);
  return {
    name,
    async segment(raster, signal, onProgress) {
      throwIfCancelled(signal);
      const { width, height } = raster;
      const all = { x: 0, y: 0, width, height };
      const whole = emptyWhole(width, height);
      try {
        const coarse = await look(raster, all, roundToMultiple(width * COARSE), roundToMultiple(height * COARSE));
        mergeScores(whole, coarse, all, all, 1);
        const tiles = planTiles(coarse, width, height, FINE_BUDGET, multiple);
        onProgress?.(1 / (tiles.length + 1));
        for (const [k, tile] of tiles.entries()) {
          throwIfCancelled(signal);
          const fine = await look(
            raster,
            tile.look,
            roundToMultiple(tile.look.width),
            roundToMultiple(tile.look.height),
          );
          mergeScores(whole, fine, tile.look, tile.keep, FINE_SHARE);
          onProgress?.((k + 2) / (tiles.length + 1));
        }
      } catch (cause) {
        throw cause instanceof Problem ? cause : new Problem('engine failed', undefined, cause);
      }
      return decode(whole, name, calibration);
    },
    dispose() {
      graph.dispose();
    },
  };
}
