import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { env } from '@tensorflow/tfjs-core';
import type { Segmenter } from '../segmenter';
import { type BackendChoice, loadNetwork } from './load';

const FOLDER = new URL('../../../models/network/', import.meta.url);

/** The wasm backend in Node, where its files lie beside the package. */
export const wasmInNode: BackendChoice = {
  name: 'wasm',
  async register() {
    const require = createRequire(import.meta.url);
    const { setWasmPaths } = await import('@tensorflow/tfjs-backend-wasm');
    setWasmPaths(`${dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))}/`);
    // Threads break in bundled builds; one way of computing everywhere is worth more than speed here.
    env().set('WASM_HAS_MULTITHREAD_SUPPORT', false);
  },
};

/** Manifest and weights as they lie in the repository. */
export async function readNetworkFiles(): Promise<{ json: unknown; bytes: ArrayBuffer }> {
  const [manifest, weights] = await Promise.all([
    readFile(fileURLToPath(new URL('manifest.json', FOLDER)), 'utf8'),
    readFile(fileURLToPath(new URL('weights.bin', FOLDER))),
  ]);
  const bytes = new Uint8Array(weights).buffer;
  return { json: JSON.parse(manifest) as unknown, bytes };
}

/** The network segmenter for the command line and tests. Rejects with Problem 'engine unavailable'. */
export async function loadNetworkInNode(): Promise<Segmenter> {
  const { json, bytes } = await readNetworkFiles();
  return loadNetwork(json, bytes, [wasmInNode]);
}
