import plainWasm from '@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm.wasm?url';
import simdWasm from '@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm-simd.wasm?url';
import { env } from '@tensorflow/tfjs-core';
import manifestUrl from '../../../models/network/manifest.json?url';
import weightsUrl from '../../../models/network/weights.bin?url';
import { Problem } from '../../flow';
import type { Segmenter } from '../segmenter';
import { type BackendChoice, loadNetwork } from './load';

const webgl: BackendChoice = {
  name: 'webgl',
  async register() {
    // Software rendering has taken minutes for what wasm does in a second; tfjs can't tell, the driver's name can.
    if (!hasRealGpu()) throw new Error('no graphics processor');
    await import('@tensorflow/tfjs-backend-webgl');
  },
};

const wasm: BackendChoice = {
  name: 'wasm',
  async register() {
    const { setWasmPaths } = await import('@tensorflow/tfjs-backend-wasm');
    // The map must name all three binaries; the threaded one is never loaded (see below).
    setWasmPaths({
      'tfjs-backend-wasm.wasm': plainWasm,
      'tfjs-backend-wasm-simd.wasm': simdWasm,
      'tfjs-backend-wasm-threaded-simd.wasm': simdWasm,
    });
    // tfjs stringifies a minified function into a worker, which breaks in production builds.
    env().set('WASM_HAS_MULTITHREAD_SUPPORT', false);
  },
};

function hasRealGpu(): boolean {
  if (typeof OffscreenCanvas === 'undefined') return false;
  const gl = new OffscreenCanvas(1, 1).getContext('webgl2');
  if (!gl) return false;
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name = info ? String(gl.getParameter(info.UNMASKED_RENDERER_WEBGL)) : '';
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return name !== '' && !/swiftshader|llvmpipe|software|basic render/i.test(name);
}

async function fetched(url: string): Promise<Response> {
  const response = await fetch(url);
  if (!response.ok) throw new Problem('engine unavailable', undefined, new Error(`${response.status} for ${url}`));
  return response;
}

/**
 * The network segmenter for the worker: graphics processor where there is a real one, else wasm. Rejects with
 * Problem 'engine unavailable' when the files can't be had or no backend computes the stored answer.
 */
export async function loadNetworkInBrowser(): Promise<Segmenter> {
  const [manifest, weights] = await Promise.all([fetched(manifestUrl), fetched(weightsUrl)]);
  return loadNetwork(await manifest.json(), await weights.arrayBuffer(), [webgl, wasm]);
}
