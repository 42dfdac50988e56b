import { findBackend, ready, removeBackend, setBackend } from '@tensorflow/tfjs-core';
import { Problem } from '../../flow';
import type { Segmenter } from '../segmenter';
import { Graph } from './graph';
import { readManifest } from './manifest';
import { createNetworkSegmenter } from './segmenter';
import { selfTestError } from './self-test';

/** A way to compute. `register` makes the backend known to tfjs and may fail where it can't run. */
export interface BackendChoice {
  readonly name: string;
  /**
   * Most milliseconds that the test picture may take once everything is warm; absent: any time will do. A graphics
   * processor takes a few; one that a driver only imitates takes longer than wasm and must not be chosen.
   */
  readonly mostWarmMs?: number;
  register(): Promise<void>;
}

/**
 * The network on the first backend that computes the stored answer.
 * @param json the parsed manifest.json
 * @param bytes weights.bin; refused unless its hash is the manifest's
 * @throws Problem 'engine unavailable' when no backend passes: the caller then uses the classical segmenter and says so
 */
export async function loadNetwork(
  json: unknown,
  bytes: ArrayBuffer,
  choices: readonly BackendChoice[],
): Promise<Segmenter> {
  const manifest = readManifest(json);
  const hash = await sha256(bytes);
  if (hash !== manifest.sha256)
    throw new Problem('engine unavailable', undefined, new Error(`weights have hash ${hash}`));
  const reasons: string[] = [];
  for (const choice of choices) {
    let graph: Graph | undefined;
    try {
      await choice.register();
      if (!(await setBackend(choice.name))) throw new Error('not set up');
      await ready();
      graph = new Graph(manifest, bytes);
      const error = await selfTestError(graph);
      const slow = error <= manifest.selfTest.tolerance && (await tooSlow(graph, choice.mostWarmMs));
      if (error <= manifest.selfTest.tolerance && !slow) return createNetworkSegmenter(graph, choice.name);
      reasons.push(slow ? `${choice.name}: takes ${slow} ms` : `${choice.name}: off by ${error}`);
    } catch (cause) {
      reasons.push(`${choice.name}: ${String(cause)}`);
    }
    graph?.dispose();
    // Gives back the context and memory of a backend that is not going to be used.
    if (findBackend(choice.name)) removeBackend(choice.name);
  }
  throw new Problem('engine unavailable', undefined, new Error(reasons.join('; ')));
}

/** Milliseconds of a second run over the test picture where they are too many, else undefined. */
async function tooSlow(graph: Graph, most: number | undefined): Promise<number | undefined> {
  if (most === undefined) return undefined;
  const start = performance.now();
  await selfTestError(graph);
  const took = performance.now() - start;
  return took > most ? Math.round(took) : undefined;
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(digest), (b) => b.toString(16).padStart(2, '0')).join('');
}
