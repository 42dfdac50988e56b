import type { Findings } from '../flow';
import { decodePhoto } from '../photo/decode.node.ts';
import type { Segmenter } from '../vision';
import { OpenPhoto } from './open-photo';
import { openSegmenter } from './segmenter.node.ts';
import type { InspectRequest, Probe } from './stages';

/** The reading engine in Node: one segmenter, any number of photos, one at a time. */
export interface Inspector {
  /** Reads one photo. Probe points are full-size pixels; everything in `findings` is in working pixels. */
  inspect(
    bytes: Uint8Array,
    name: string,
    request?: InspectRequest,
  ): Promise<{ readonly findings: Findings; readonly probes: readonly Probe[] }>;
  /** Opens a photo for tracing and rereading. */
  open(bytes: Uint8Array, name: string, request?: InspectRequest): Promise<OpenPhoto>;
  dispose(): void;
}

/** Opens the engine. `segmenter` is for tests and comparisons; without it the best that runs here is chosen. */
export async function openInspector(segmenter?: Segmenter): Promise<Inspector> {
  const chosen = segmenter ?? (await openSegmenter());
  const open: Inspector['open'] = (bytes, name, request = {}) =>
    OpenPhoto.open(() => decodePhoto(bytes, name, request.signal ? { signal: request.signal } : {}), chosen, request);
  return {
    open,
    async inspect(bytes, name, request) {
      const { findings, probes } = await open(bytes, name, request);
      return { findings, probes };
    },
    dispose: () => chosen.dispose(),
  };
}
