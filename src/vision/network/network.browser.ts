import manifestUrl from '../../../models/network/manifest.json?url';
import weightsUrl from '../../../models/network/weights.bin?url';
import { Problem } from '../../flow';
import type { Segmenter } from '../segmenter';
import { wasm, webgl, webgpu } from './backends.browser';
import { type BackendChoice, loadNetwork } from './load';

/** @throws Problem 'engine unavailable' also where there is no network: the classical segmenter needs none of this. */
async function fetched(url: string): Promise<Response> {
  const response = await fetch(url).catch((cause: unknown) => {
    throw new Problem('engine unavailable', undefined, cause);
  });
  if (!response.ok) throw new Problem('engine unavailable', undefined, new Error(`${response.status} for ${url}`));
  return response;
}

/**
 * The network segmenter for the worker: graphics processor where there is a real one, else wasm. Rejects with
 * Problem 'engine unavailable' when the files can't be had or no backend computes the stored answer.
 * @param choices for tests and measurements
 */
export async function loadNetworkInBrowser(
  choices: readonly BackendChoice[] = [webgpu, webgl, wasm],
): Promise<Segmenter> {
  const [manifest, weights] = await Promise.all([fetched(manifestUrl), fetched(weightsUrl)]);
  return loadNetwork(await manifest.json(), await weights.arrayBuffer(), choices);
}
