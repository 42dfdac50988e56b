import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Raster } from '../../../src/flow';
import type { Segmentation } from '../../../src/vision';
import { decode } from '../../../src/vision/network/decode';
import { halfToFloat } from '../../../src/vision/network/half-float';
import { readManifest } from '../../../src/vision/network/manifest';
import { readNetworkFiles } from '../../../src/vision/network/network.node.ts';
import { COLOR_COUNT, SCORE_COUNT } from '../../../src/vision/network/planes';
import { sampleWindow } from '../../../src/vision/network/sample';
import { lookSize } from '../../../src/vision/network/segmenter';

const WAIT_MS = 4;

/** A segmenter that has models/training/ribbon/scores.py run the network; both share a folder. */
export async function openAsked(folder: string): Promise<(raster: Raster, id: string) => Promise<Segmentation>> {
  const { multiple, calibration } = readManifest((await readNetworkFiles()).json);
  return async (raster, id) => {
    const { width, height } = lookSize(raster.width, raster.height, multiple);
    const shown = sampleWindow(raster, { x: 0, y: 0, width: raster.width, height: raster.height }, width, height);
    const ask = join(folder, `${id}.${width}x${height}`);
    const levels = new Uint16Array(shown.length);
    for (let k = 0; k < shown.length; k++) levels[k] = Math.round(shown[k]! * 65535);
    writeFileSync(`${ask}.written`, levels);
    renameSync(`${ask}.written`, `${ask}.ask`);
    const answer = join(folder, `${id}.answer`);
    while (!existsSync(answer)) await setTimeout(WAIT_MS);
    const numbers = halfToFloat(new Uint8Array(readFileSync(answer)));
    rmSync(answer);
    const pixels = width * height;
    const sizes = [pixels * SCORE_COUNT, (pixels / 4) * COLOR_COUNT, pixels, pixels / 4];
    const [full, color, tape, stripe] = sizes.map((size, k) => {
      const from = sizes.slice(0, k).reduce((sum, n) => sum + n, 0);
      return numbers.subarray(from, from + size);
    }) as [Float32Array, Float32Array, Float32Array, Float32Array];
    return decode({ width, height, full, color, tape, stripe }, raster.width, raster.height, 'asked', calibration);
  };
}
