import { Problem } from '../../src/flow';
import { decodePhoto, openBitmaps } from '../../src/photo/decode.browser';

export interface PhotoAnswer {
  readonly problem?: string;
  readonly full?: readonly [number, number];
  readonly working?: readonly [number, number];
  readonly scale?: number;
  /** RGB in the middle of the four quarters, row by row. */
  readonly quarters?: readonly (readonly number[])[];
  readonly openBitmaps: number;
  readonly ms: number;
}

async function answer({ bytes, maxSide }: { bytes: ArrayBuffer; maxSide?: number }): Promise<PhotoAnswer> {
  const start = performance.now();
  try {
    const { facts, raster, scale } = await decodePhoto(bytes, 'photo', maxSide ? { maxSide } : {});
    const ms = performance.now() - start;
    const quarters = [
      [0.25, 0.25],
      [0.75, 0.25],
      [0.25, 0.75],
      [0.75, 0.75],
    ].map(([u, v]) => {
      const x = Math.floor((u as number) * raster.width);
      const y = Math.floor((v as number) * raster.height);
      return [...raster.data.subarray((y * raster.width + x) * 4, (y * raster.width + x) * 4 + 3)];
    });
    return {
      full: [facts.width, facts.height],
      working: [raster.width, raster.height],
      scale,
      quarters,
      openBitmaps: openBitmaps(),
      ms,
    };
  } catch (error) {
    const problem = error instanceof Problem ? error.kind : String(error);
    return { problem, openBitmaps: openBitmaps(), ms: performance.now() - start };
  }
}

self.onmessage = (event: MessageEvent<{ bytes: ArrayBuffer; maxSide?: number }>) => {
  void answer(event.data).then((reply) => self.postMessage(reply));
};
