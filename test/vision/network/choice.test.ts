import { MathBackendCPU } from '@tensorflow/tfjs-backend-cpu';
import {
  copyRegisteredKernels,
  getKernel,
  memory,
  registerBackend,
  registerKernel,
  type TensorInfo,
  unregisterKernel,
} from '@tensorflow/tfjs-core';
import { afterAll, describe, expect, it } from 'vitest';
import { bestSegmenter } from '../../../src/inspect/best-segmenter';
import { createClassicalSegmenter } from '../../../src/vision';
import { type BackendChoice, loadNetwork } from '../../../src/vision/network/load';
import { readNetworkFiles, wasmInNode } from '../../../src/vision/network/network.node';
import { useBackend } from './use-backend';

/**
 * tfjs's plain backend under another name, whose convolutions are spoiled by `spoil`. Backends have been seen to give
 * wrong numbers without an error; the stored answer from PyTorch (models/training/export.py) is what tells.
 */
function backend(name: string, spoil: (values: Float32Array) => void): BackendChoice {
  return {
    name,
    async register() {
      registerBackend(name, () => new MathBackendCPU());
      copyRegisteredKernels('cpu', name);
      const honest = getKernel('FusedConv2D', 'cpu').kernelFunc;
      unregisterKernel('FusedConv2D', name);
      registerKernel({
        kernelName: 'FusedConv2D',
        backendName: name,
        kernelFunc: (args) => {
          const out = honest(args) as TensorInfo;
          spoil((args.backend as MathBackendCPU).data.get(out.dataId).values as Float32Array);
          return out;
        },
      });
    },
  };
}

const honest = (): void => undefined;
const files = await readNetworkFiles();
const load = (...choices: BackendChoice[]) => loadNetwork(files.json, files.bytes, choices);

describe('the choice of a backend', () => {
  it.each([
    ['returns not-a-number', backend('nan', (v) => v.fill(Number.NaN))],
    ['returns zeros', backend('zeros', (v) => v.fill(0))],
    [
      'is off by five in a hundred',
      backend('off', (v) => {
        for (let i = 0; i < v.length; i++) v[i]! *= 1.05;
      }),
    ],
    ['cannot be registered', { name: 'none', register: () => Promise.reject(new Error('no adapter')) }],
    ['is not known after it was registered', { name: 'ghost', register: () => Promise.resolve() }],
    ['is right but slower than is allowed', { ...backend('slow', honest), mostWarmMs: 0 }],
  ])('passes over one that %s, and takes wasm', async (_, choice) => {
    const before = memory().numTensors;
    const network = await load(choice, wasmInNode);
    expect(network.name).toMatch(/^network .+ on wasm$/);
    network.dispose();
    expect(memory().numTensors).toBe(before);
  });

  it('twin that must fail: the same backend unspoiled is taken', async () => {
    const network = await load(backend('plain', honest), wasmInNode);
    expect(network.name).toMatch(/ on plain$/);
    network.dispose();
  });

  it('falls back to the classical segmenter when none computes the stored answer', async () => {
    const nothing = (name: string) => load(backend(name, (v) => v.fill(Number.NaN)));
    await expect(nothing('nothing')).rejects.toMatchObject({ kind: 'engine unavailable' });
    const chosen = await bestSegmenter(() => nothing('nothing again'), createClassicalSegmenter);
    expect(chosen.name).toMatch(/^classical/);
    chosen.dispose();
  });
});

afterAll(async () => {
  // Backends that failed were taken away; the count needs one.
  await useBackend(wasmInNode);
  expect(memory().numTensors).toBe(0);
});
