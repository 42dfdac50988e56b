import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { env, ready, setBackend } from '@tensorflow/tfjs-core';
import { setWasmPaths } from '@tensorflow/tfjs-backend-wasm';

/** Sets the wasm backend up in Node, where its files lie beside the package. */
export async function useWasmInNode(): Promise<void> {
  const require = createRequire(import.meta.url);
  setWasmPaths(`${dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))}/`);
  // Threads break in bundled builds, and one answer everywhere is worth more than speed here.
  env().set('WASM_HAS_MULTITHREAD_SUPPORT', false);
  await setBackend('wasm');
  await ready();
}
