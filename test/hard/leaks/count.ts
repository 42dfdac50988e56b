import { memory } from '@tensorflow/tfjs-core';
import sharp from 'sharp';
import { STAGES } from '../../../src/inspect';
import { type Inspector, openInspector } from '../../../src/inspect/inspect.node.ts';
import { createClassicalSegmenter, liveMats, type Segmenter } from '../../../src/vision';
import { practiceScenes } from '../meaning/practice-scenes';

/** What must be back where it was. */
export interface Held {
  readonly mats: number;
  readonly tensors: number;
  readonly tensorBytes: number;
}

const held = (): Held => {
  const { numTensors, numBytes } = memory();
  return { mats: liveMats(), tensors: numTensors, tensorBytes: numBytes };
};

export interface LeakCount {
  readonly before: Held;
  readonly afterRead: Held;
  readonly afterCancelled: Held;
  readonly cancelled: number;
  /** Resident megabytes after the first tenth and at the end. */
  readonly residentMb: readonly [number, number];
}

const resident = (): number => Math.round(process.memoryUsage().rss / 2 ** 20);

export interface LeakOptions {
  readonly classical?: boolean;
  /** Pixels; scenes keep their own width when left out. What is held does not depend on it, the time does. */
  readonly width?: number;
  /** Called after each twentieth of the photos with what is held by then. */
  readonly onStep?: (done: number, now: Held, residentMb: number) => void;
}

/** Reads so many photos, then as many that are cancelled at each stage in turn. The first reading warms up. */
export async function countLeaks(photos: number, { classical, width, onStep }: LeakOptions = {}): Promise<LeakCount> {
  const segmenter: Segmenter | undefined = classical ? createClassicalSegmenter() : undefined;
  const inspector: Inspector = await openInspector(segmenter);
  const scenes = await Promise.all(
    practiceScenes().map(async ({ file, bytes }) => ({
      file,
      bytes: width ? new Uint8Array(await sharp(bytes).resize(width).jpeg({ quality: 90 }).toBuffer()) : bytes,
    })),
  );
  const step = Math.max(1, Math.floor(photos / 20));
  const scene = (k: number) => scenes[k % scenes.length]!;
  await inspector.inspect(scene(0).bytes, scene(0).file);
  const before = held();
  let early = resident();
  for (let k = 0; k < photos; k++) {
    await inspector.inspect(scene(k).bytes, scene(k).file);
    if (k === Math.floor(photos / 10)) early = resident();
    if ((k + 1) % step === 0) onStep?.(k + 1, held(), resident());
  }
  const afterRead = held();
  let cancelled = 0;
  for (let k = 0; k < photos; k++) {
    const stop = new AbortController();
    const onStage = (stage: string): void => {
      if (stage === STAGES[k % STAGES.length]) stop.abort();
    };
    try {
      await inspector.inspect(scene(k).bytes, scene(k).file, { signal: stop.signal, onStage });
    } catch {
      cancelled++;
    }
    if ((k + 1) % step === 0) onStep?.(photos + k + 1, held(), resident());
  }
  const afterCancelled = held();
  inspector.dispose();
  return { before, afterRead, afterCancelled, cancelled, residentMb: [early, resident()] };
}
