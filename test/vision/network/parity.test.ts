import { readFileSync } from 'node:fs';
import { memory } from '@tensorflow/tfjs-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Graph } from '../../../src/vision/network/graph';
import { type NetworkManifest, readManifest } from '../../../src/vision/network/manifest';
import { readNetworkFiles, wasmInNode } from '../../../src/vision/network/network.node';
import { readScores } from '../../../src/vision/network/planes';
import { selfTestError, testPattern } from '../../../src/vision/network/self-test';
import { useBackend } from './use-backend';

interface Fixture {
  readonly sha256: string;
  readonly height: number;
  readonly width: number;
  readonly layers: readonly { layer: number; step: number; count: number }[];
}

// Written by models/training/export.py: what PyTorch computes, layer by layer, from the same rounded weights.
const fixture = JSON.parse(readFileSync(new URL('parity.json', import.meta.url), 'utf8')) as Fixture;
const expected = new Float32Array(new Uint8Array(readFileSync(new URL('parity.bin', import.meta.url))).buffer);

let manifest: NetworkManifest;
let bytes: ArrayBuffer;

beforeAll(async () => {
  await useBackend(wasmInNode);
  const files = await readNetworkFiles();
  manifest = readManifest(files.json);
  bytes = files.bytes;
});

/** Largest difference per layer, relative to the layer's largest value (at least 1). */
function differences(weights: ArrayBuffer): number[] {
  const graph = new Graph(manifest, weights);
  const input = testPattern(fixture.height, fixture.width);
  const off: number[] = [];
  let at = 0;
  const { full, half } = graph.run(input, (id, value) => {
    const { step, count } = fixture.layers[id]!;
    const computed = value.dataSync();
    let worst = 0;
    let size = 1;
    for (let k = 0; k < count; k++) {
      const truth = expected[at + k]!;
      size = Math.max(size, Math.abs(truth));
      worst = Math.max(worst, Math.abs(computed[k * step]! - truth));
    }
    at += count;
    off.push(worst / size);
  });
  for (const tensor of [input, full, half]) tensor.dispose();
  graph.dispose();
  return off;
}

describe('the network computes what PyTorch computed', () => {
  it('has the fixture of these weights', () => {
    expect(fixture.sha256).toBe(manifest.sha256);
    expect(fixture.layers).toHaveLength(manifest.layers.length);
  });

  it('agrees to 1e-3 in every layer', () => {
    const off = differences(bytes);
    expect(off).toHaveLength(manifest.layers.length);
    expect(Math.max(...off)).toBeLessThan(1e-3);
  });

  it('twin that must fail: one changed weight of the first layer shows', () => {
    const changed = bytes.slice(0);
    new Uint8Array(changed)[1]! ^= 0x40;
    expect(Math.max(...differences(changed))).toBeGreaterThan(1e-2);
  });

  it('gives the same scores packed: each pixel of a block in its own channels', () => {
    const graph = new Graph(manifest, bytes);
    const input = testPattern(fixture.height, fixture.width);
    const whole = graph.run(input);
    const { packed, block, half } = graph.runPacked(input);
    const [, rows, columns, channels] = packed.shape;
    expect([rows * block, columns * block]).toEqual([fixture.height, fixture.width]);
    const n = channels / block ** 2;
    const from = packed.dataSync();
    const inOrder = new Float32Array(whole.full.size);
    const swapped = new Float32Array(whole.full.size);
    for (let y = 0, to = 0; y < fixture.height; y++)
      for (let x = 0; x < fixture.width; x++)
        for (let c = 0; c < n; c++, to++) {
          const cell = (Math.floor(y / block) * columns + Math.floor(x / block)) * channels;
          inOrder[to] = from[cell + ((y % block) * block + (x % block)) * n + c]!;
          swapped[to] = from[cell + ((x % block) * block + (y % block)) * n + c]!;
        }
    const truth = whole.full.dataSync();
    expect(inOrder).toEqual(truth);
    // Twin that must fail: rows and columns of a block exchanged.
    expect(swapped).not.toEqual(truth);
    expect(half.dataSync()).toEqual(whole.half.dataSync());
    for (const tensor of [input, packed, half, whole.full, whole.half]) tensor.dispose();
    graph.dispose();
  });

  it('reads tape and stripe off the channels that the manifest names so', async () => {
    const graph = new Graph(manifest, bytes);
    const input = testPattern(fixture.height, fixture.width);
    const whole = graph.run(input);
    const { tape, stripe } = await readScores(graph.runPacked(input), manifest);
    const channel = (values: ArrayLike<number>, names: readonly string[], name: string): Float32Array =>
      Float32Array.from(values).filter((_, k) => k % names.length === names.indexOf(name));
    const [full, half] = [whole.full.dataSync(), whole.half.dataSync()];
    expect(tape).toEqual(channel(full, manifest.full.channels, 'tape'));
    expect(stripe).toEqual(channel(half, manifest.half.channels, 'stripe'));
    // Twin that must fail: the channel beside.
    expect(tape).not.toEqual(channel(full, manifest.full.channels, 'edge'));
    expect(stripe).not.toEqual(channel(half, manifest.half.channels, 'no-color'));
    for (const tensor of [input, whole.full, whole.half]) tensor.dispose();
    graph.dispose();
  });

  it('passes its self-test, and leaves no tensor behind', async () => {
    const before = memory().numTensors;
    const graph = new Graph(manifest, bytes);
    expect(await selfTestError(graph)).toBeLessThan(1e-2);
    graph.dispose();
    expect(memory().numTensors).toBe(before);
  });

  it('twin that must fail: the self-test notices wrong weights', async () => {
    const changed = bytes.slice(0);
    new Uint8Array(changed)[1]! ^= 0x40;
    const graph = new Graph(manifest, changed);
    expect(await selfTestError(graph)).toBeGreaterThan(manifest.selfTest.tolerance);
    graph.dispose();
  });

  it('refuses weights of another length', () => {
    expect(() => new Graph(manifest, bytes.slice(2))).toThrow(/engine failed/);
  });
});

afterAll(() => {
  expect(memory().numTensors).toBe(0);
});
