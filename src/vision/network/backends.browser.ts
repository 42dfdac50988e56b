import plainWasm from '@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm.wasm?url';
import simdWasm from '@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm-simd.wasm?url';
import { env } from '@tensorflow/tfjs-core';
import type { BackendChoice } from './load';

/** A real graphics processor needs 5 to 20 ms for the test picture; wasm needs about as much as this. */
const MOST_WARM_MS = 60;
/** Names under which drivers imitate a graphics processor on the processor. */
const IMITATED = /swiftshader|llvmpipe|lavapipe|software|basic render/i;

/** The part of WebGPU's adapter that is looked at; the libraries in use declare none for workers. */
interface Adapter {
  readonly isFallbackAdapter?: boolean;
  readonly info?: { readonly isFallbackAdapter?: boolean; readonly description?: string; readonly device?: string };
}

/** Graphics processor through WebGPU. */
export const webgpu: BackendChoice = {
  name: 'webgpu',
  mostWarmMs: MOST_WARM_MS,
  async register() {
    const { gpu } = navigator as { readonly gpu?: { requestAdapter(): Promise<Adapter | null> } };
    const adapter = await gpu?.requestAdapter();
    if (!adapter) throw new Error('no adapter');
    const { info } = adapter;
    const imitated = IMITATED.test(`${info?.description ?? ''} ${info?.device ?? ''}`);
    if (adapter.isFallbackAdapter || info?.isFallbackAdapter || imitated) throw new Error('no graphics processor');
    await import('@tensorflow/tfjs-backend-webgpu');
  },
};

/** Graphics processor through WebGL. */
export const webgl: BackendChoice = {
  name: 'webgl',
  mostWarmMs: MOST_WARM_MS,
  async register() {
    // Compiling for an imitated one alone has taken minutes; tfjs can't tell, the driver's name can.
    if (!hasRealGpu()) throw new Error('no graphics processor');
    await import('@tensorflow/tfjs-backend-webgl');
  },
};

/** The processor, one thread, SIMD where there is one. Runs everywhere. */
export const wasm: BackendChoice = {
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
  return name !== '' && !IMITATED.test(name);
}
