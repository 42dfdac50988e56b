import { memory } from '@tensorflow/tfjs-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Problem, type Raster } from '../../../src/flow';
import { loadNetwork } from '../../../src/vision/network/load';
import { loadNetworkInNode, readNetworkFiles, wasmInNode } from '../../../src/vision/network/network.node';
import type { Segmenter } from '../../../src/vision/segmenter';

const WIDTH = 320;
const HEIGHT = 256;
/** A shaded red cylinder lies across the picture at this slope, in pixels of y per pixel of x. */
const SLOPE = 0.25;
const RADIUS = 8;

const distance = (x: number, y: number): number => (y - 90 - SLOPE * x) / Math.hypot(1, SLOPE);

/** The simplest conductor there is: round, shaded, glossy, before gray. */
function cylinder(): Raster {
  const data = new Uint8ClampedArray(WIDTH * HEIGHT * 4);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const d = distance(x + 0.5, y + 0.5) / RADIUS;
      const shade = 0.35 + 0.65 * Math.sqrt(Math.max(0, 1 - (d + 0.3) ** 2));
      const gloss = 90 * Math.exp(-(((d + 0.35) / 0.15) ** 2));
      const grain = ((x * 7 + y * 13) % 5) - 2;
      const color = Math.abs(d) < 1 ? [190 * shade + gloss, 25 * shade + gloss, 25 * shade + gloss] : [150, 150, 146];
      data.set([...color.map((v) => v + grain), 255], (y * WIDTH + x) * 4);
    }
  return { width: WIDTH, height: HEIGHT, data };
}

let network: Segmenter;
beforeAll(async () => {
  network = await loadNetworkInNode();
});
afterAll(() => {
  network.dispose();
  expect(memory().numTensors).toBe(0);
});

describe('the network segmenter', () => {
  it('finds a round red conductor, its direction and its width, and leaves no tensor behind', async () => {
    const before = memory().numTensors;
    const planes = await network.segment(cylinder());
    expect(memory().numTensors).toBe(before);
    let on = 0;
    let off = 0;
    let wires = 0;
    let turned = 0;
    let width = 0;
    const t = Math.atan(SLOPE);
    for (let y = 24; y < HEIGHT - 24; y++)
      for (let x = 24; x < WIDTH - 24; x++) {
        const d = Math.abs(distance(x + 0.5, y + 0.5));
        const i = y * WIDTH + x;
        if (d < RADIUS - 2) {
          wires++;
          on += planes.wire[i]! > 0.5 ? 1 : 0;
          turned += planes.direction[2 * i]! * Math.cos(2 * t) + planes.direction[2 * i + 1]! * Math.sin(2 * t);
          width += planes.halfWidth[i]!;
        } else if (d > RADIUS + 6) off = Math.max(off, planes.wire[i]!);
      }
    expect(on / wires).toBeGreaterThan(0.9);
    expect(turned / wires).toBeGreaterThan(0.9);
    expect(Math.abs(width / wires - RADIUS)).toBeLessThan(2.5);
    expect(off).toBeLessThan(0.5);
  });

  it('twin that must fail: an even gray picture holds no conductor', async () => {
    const gray = cylinder();
    for (let i = 0; i < gray.data.length; i += 4) gray.data.set([150, 150, 146], i);
    const { wire } = await network.segment(gray);
    expect(Math.max(...wire)).toBeLessThan(0.5);
  });

  it('stops when told so', async () => {
    const stop = new AbortController();
    stop.abort();
    await expect(network.segment(cylinder(), stop.signal)).rejects.toMatchObject({ kind: 'cancelled' });
  });

  it('reports progress up to 1', async () => {
    const seen: number[] = [];
    await network.segment(cylinder(), undefined, (share) => seen.push(share));
    expect(seen.at(-1)).toBe(1);
    expect([...seen].sort((a, b) => a - b)).toEqual(seen);
  });

  it('is refused when a weight was changed on the way, or no backend runs', async () => {
    const { json, bytes } = await readNetworkFiles();
    const changed = bytes.slice(0);
    new Uint8Array(changed)[100]! ^= 1;
    await expect(loadNetwork(json, changed, [wasmInNode])).rejects.toBeInstanceOf(Problem);
    await expect(loadNetwork(json, bytes, [])).rejects.toMatchObject({ kind: 'engine unavailable' });
  });
});
