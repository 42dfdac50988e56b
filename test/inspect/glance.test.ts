import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { memory } from '@tensorflow/tfjs-core';
import sharp, { type Sharp } from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Raster } from '../../src/flow';
import { type Frame, glanceAt } from '../../src/inspect/glance';
import { createClassicalSegmenter, type Segmenter } from '../../src/vision';
import { loadNetworkInNode } from '../../src/vision/network/network.node';
import { SCENE } from '../browser/scene';

const manifest = JSON.parse(readFileSync(join(dirname(SCENE.path), 'manifest.json'), 'utf8')) as {
  readonly scenes: readonly {
    readonly file: string;
    readonly width: number;
    readonly height: number;
    readonly conductors: readonly { readonly color: string; readonly points: readonly (readonly [number, number])[] }[];
  }[];
};

const SIZE = { width: 1280, height: 720 };
const WHOLE = { width: 336, height: 189 };
const DETAIL = { width: 480, height: 360 };

async function raster(picture: Sharp): Promise<Raster> {
  const { data, info } = await picture.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: new Uint8ClampedArray(data) };
}

/** What the page cuts from a camera frame that shows `picture`. */
async function frameOf(picture: Buffer | string, blur = 0): Promise<Frame> {
  const shown = sharp(picture).resize(SIZE.width, SIZE.height, { fit: 'cover' });
  const frame = await (blur ? shown.blur(blur) : shown).png().toBuffer();
  const left = (SIZE.width - DETAIL.width) / 2;
  const top = (SIZE.height - DETAIL.height) / 2;
  return {
    ...SIZE,
    whole: await raster(sharp(frame).resize(WHOLE.width, WHOLE.height)),
    detail: await raster(sharp(frame).extract({ left, top, ...DETAIL })),
  };
}

let network: Segmenter;
beforeAll(async () => {
  network = await loadNetworkInNode();
});
afterAll(() => {
  network.dispose();
  expect(memory().numTensors).toBe(0);
});

describe('a glance at a camera frame', () => {
  it('outlines conductors inside the small copy, and leaves no tensor behind', async () => {
    const before = memory().numTensors;
    const { width, height, conductors, looked } = await glanceAt(await frameOf(SCENE.path), network);
    expect(memory().numTensors).toBe(before);
    expect(looked).toBe(true);
    expect(conductors.length).toBeGreaterThan(3);
    for (const [x, y] of conductors.flat(2)) {
      expect(x).toBeGreaterThan(-10);
      expect(x).toBeLessThan(width + 10);
      expect(y).toBeGreaterThan(-10);
      expect(y).toBeLessThan(height + 10);
    }
  });

  it('twin that must fail: an even wall has no conductor', async () => {
    const wall = await sharp({ create: { ...SIZE, channels: 3, background: '#969692' } })
      .png()
      .toBuffer();
    expect((await glanceAt(await frameOf(wall), network)).conductors).toHaveLength(0);
  });

  it('sees a blur that the small copy alone would hide', async () => {
    const sharpFrame = await glanceAt(await frameOf(SCENE.path), network);
    const soft = await glanceAt(await frameOf(SCENE.path, 4), network);
    const codes = (g: typeof soft): readonly string[] => g.capture.reasons.map((r) => r.code);
    expect(codes(soft)).toContain('photo.capture.blurred');
    expect(codes(sharpFrame)).not.toContain('photo.capture.blurred');
    const frame = await frameOf(SCENE.path, 4);
    expect(soft.capture.measures.blurPx).toBeGreaterThan(
      (await glanceAt({ ...frame, detail: frame.whole }, network)).capture.measures.blurPx,
    );
  });

  describe('with an aim', () => {
    /** A place of the frame, in both of its views; the detail lies round it. */
    async function aimed(color: string): Promise<Frame> {
      const truth = manifest.scenes.find((s) => s.file === 'gutter-208y120.jpg')!;
      const zoom = SIZE.width / truth.width;
      const cutAway = (truth.height * zoom - SIZE.height) / 2;
      const place = truth.conductors
        .filter((c) => c.color === color)
        .flatMap((c) => c.points.map(([x, y]) => [x * zoom, y * zoom - cutAway] as const))
        .find(([, y]) => y > 20 && y < SIZE.height - 20)!;
      const frame = await sharp(SCENE.path).resize(SIZE.width, SIZE.height, { fit: 'cover' }).png().toBuffer();
      const left = Math.floor(Math.min(SIZE.width - DETAIL.width, Math.max(0, place[0] - DETAIL.width / 2)));
      const top = Math.floor(Math.min(SIZE.height - DETAIL.height, Math.max(0, place[1] - DETAIL.height / 2)));
      const shrink = WHOLE.width / SIZE.width;
      return {
        ...SIZE,
        whole: await raster(sharp(frame).resize(WHOLE.width, WHOLE.height)),
        detail: await raster(sharp(frame).extract({ left, top, ...DETAIL })),
        aim: { inWhole: [place[0] * shrink, place[1] * shrink], inDetail: [place[0] - left, place[1] - top] },
      };
    }

    it.each(['blue', 'red', 'white', 'green'])('holds the name that the scene says is there: %s', async (color) => {
      const { aimed: seen } = await glanceAt(await aimed(color), network);
      expect(seen?.names.map((c) => c.name)).toContain(color);
      expect(seen!.bare).toBeLessThan(0.5);
    });

    it('twin that must fail: on the wall between conductors there is no name; without an aim none is looked for', async () => {
      const wall = await sharp({ create: { ...SIZE, channels: 3, background: '#969692' } })
        .png()
        .toBuffer();
      const aim = { inWhole: [168, 94], inDetail: [240, 180] } as const;
      expect((await glanceAt({ ...(await frameOf(wall)), aim }, network)).aimed).toBeNull();
      expect(await glanceAt(await frameOf(SCENE.path), network)).not.toHaveProperty('aimed');
    });
  });

  it('says that it did not look where the segmenter is too slow for it', async () => {
    const slow = await glanceAt(await frameOf(SCENE.path), createClassicalSegmenter());
    expect(slow).toMatchObject({ looked: false, conductors: [] });
    expect(slow.capture.measures.litLuminance).toBeGreaterThan(0);
  });
});
