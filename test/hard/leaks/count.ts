import { memory } from '@tensorflow/tfjs-core';
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

/** Reads so many photos, then as many that are cancelled at each stage in turn. The first reading warms up. */
export async function countLeaks(photos: number, classical = false): Promise<LeakCount> {
  const segmenter: Segmenter | undefined = classical ? createClassicalSegmenter() : undefined;
  const inspector: Inspector = await openInspector(segmenter);
  const scenes = practiceScenes();
  const scene = (k: number) => scenes[k % scenes.length]!;
  await inspector.inspect(scene(0).bytes, scene(0).file);
  const before = held();
  let early = resident();
  for (let k = 0; k < photos; k++) {
    await inspector.inspect(scene(k).bytes, scene(k).file);
    if (k === Math.floor(photos / 10)) early = resident();
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
  }
  const afterCancelled = held();
  inspector.dispose();
  return { before, afterRead, afterCancelled, cancelled, residentMb: [early, resident()] };
}
