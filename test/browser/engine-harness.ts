import { backend as device } from '@tensorflow/tfjs-core';
import { Problem } from '../../src/flow';
import { createInspectClient } from '../../src/inspect';
import type { Segmentation } from '../../src/vision';
import { wasm } from '../../src/vision/network/backends.browser';
import { loadNetworkInBrowser } from '../../src/vision/network/network.browser';

/** What one way of computing answered and took, milliseconds. */
export interface BackendReport {
  readonly name: string;
  readonly problem?: string;
  readonly loadMs: number;
  /** First and second look at a picture of 128 x 128 px, shown at 1.4 times its size. */
  readonly firstMs: number;
  readonly secondMs: number;
  /** Means of the probability plane and of the half widths, to compare backends with each other. */
  readonly wire: number;
  readonly halfWidth: number;
}

/** Of the test picture, px. Small: an imitated graphics processor needs seconds for it. */
const SIDE = 128;

/** A picture with something in it: diagonal shaded bars on gray. */
function bars(side: number): { width: number; height: number; data: Uint8ClampedArray } {
  const data = new Uint8ClampedArray(side * side * 4);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const across = ((x + 2 * y) % 96) / 12 - 1;
      const shade = Math.abs(across) < 1 ? 0.4 + 0.6 * Math.sqrt(1 - across * across) : 0;
      data.set(shade ? [190 * shade, 40 * shade, 40 * shade, 255] : [150, 150, 146, 255], (y * side + x) * 4);
    }
  return { width: side, height: side, data };
}

const choices = {
  wasm,
  webgl: { name: 'webgl', register: async () => void (await import('@tensorflow/tfjs-backend-webgl')) },
  webgpu: { name: 'webgpu', register: async () => void (await import('@tensorflow/tfjs-backend-webgpu')) },
};
const mean = (v: Float32Array): number => v.reduce((a, b) => a + b, 0) / v.length;

/** One backend by name, software or not, in the page itself. */
async function backend(name: 'wasm' | 'webgl' | 'webgpu'): Promise<BackendReport> {
  const empty = { name, loadMs: 0, firstMs: 0, secondMs: 0, wire: 0, halfWidth: 0 };
  const start = performance.now();
  try {
    const network = await loadNetworkInBrowser([choices[name]]);
    const loadMs = performance.now() - start;
    const picture = bars(SIDE);
    const begun = performance.now();
    await network.segment(picture);
    const between = performance.now();
    const planes = await network.segment(picture);
    const secondMs = performance.now() - between;
    network.dispose();
    return {
      name: network.name,
      loadMs,
      firstMs: between - begun,
      secondMs,
      wire: mean(planes.wire),
      halfWidth: mean(planes.halfWidth),
    };
  } catch (error) {
    const cause = (error as Error).cause;
    return { ...empty, loadMs: performance.now() - start, problem: String(cause ?? error) };
  }
}

/** Loses the graphics processor of the backend in use, as a driver that is reset does. */
function lose(): void {
  const { gpgpu, device: gpu } = device() as unknown as {
    readonly gpgpu?: { readonly gl: WebGLRenderingContext };
    readonly device?: { destroy(): void };
  };
  gpgpu?.gl.getExtension('WEBGL_lose_context')?.loseContext();
  gpu?.destroy();
}

interface LossReport {
  /** What became of a look under way when the graphics processor is lost, and of one begun after it. */
  readonly during: string;
  readonly after: string;
  /** Mean wire probability of a fresh engine on wasm. */
  readonly fresh: number;
}

/** What comes of looks around the loss of a graphics processor. */
async function lost(name: 'webgl' | 'webgpu'): Promise<LossReport> {
  const picture = bars(SIDE);
  // What loads has computed the stored answer on this backend.
  const network = await loadNetworkInBrowser([choices[name]]);
  const outcome = (look: Promise<Segmentation>): Promise<string> =>
    look.then(
      ({ wire }) => `an answer: ${mean(wire)}`,
      (error: unknown) => (error instanceof Problem ? error.kind : String(error)),
    );
  const during = outcome(network.segment(picture));
  lose();
  const told = await during;
  const after = await outcome(network.segment(picture));
  const other = await loadNetworkInBrowser([choices.wasm]);
  const fresh = mean((await other.segment(picture)).wire);
  other.dispose();
  return { during: told, after, fresh };
}

/** The whole way in the product's own worker; the second of two readings, so that loading does not count. */
async function inspect(base64: string): Promise<{ segmenter: string; elapsedMs: number; stages: object }> {
  const bytes = new Blob([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))]);
  const client = createInspectClient();
  try {
    await client.inspect({ id: 'first', name: 'photo.jpg', bytes });
    const { segmenter, elapsedMs, stages } = await client.inspect({ id: 'second', name: 'photo.jpg', bytes });
    return { segmenter, elapsedMs, stages };
  } finally {
    client.dispose();
  }
}

Object.assign(globalThis, { engine: { backend, inspect, lost } });
export type Engine = { backend: typeof backend; inspect: typeof inspect; lost: typeof lost };
