import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Raster } from '../../src/flow';
import { openInspector } from '../../src/inspect/inspect.node.ts';
import type { OpenPhoto } from '../../src/inspect/open-photo';
import { createClassicalSegmenter, liveMats } from '../../src/vision';
import { blank, grain, lay } from '../vision/draw';

const png = async ({ width, height, data }: Raster): Promise<Uint8Array> =>
  sharp(Buffer.from(data.buffer), { raw: { width, height, channels: 4 } })
    .png()
    .toBuffer();

/** Invented scene: a red, a blue and a white conductor on gray paint, a sheet of white paper in the corner. */
function scene(): Raster {
  const raster = blank(640, 420, [128, 130, 128]);
  for (let y = 0; y < 70; y++)
    for (let x = 0; x < 110; x++) raster.data.set([236, 234, 230, 255], (y * raster.width + x) * 4);
  lay(
    raster,
    [
      [10, 120],
      [630, 140],
    ],
    8,
    [185, 32, 38],
  );
  lay(
    raster,
    [
      [10, 220],
      [630, 200],
    ],
    8,
    [28, 62, 150],
  );
  lay(
    raster,
    [
      [10, 330],
      [630, 330],
    ],
    8,
    [228, 226, 220],
  );
  grain(raster, 3);
  return raster;
}

// The classical segmenter: these tests are about the photo, and it needs no weights.
const inspector = () => openInspector(createClassicalSegmenter());

describe('a photo read in one go', () => {
  let photo: OpenPhoto;
  beforeAll(async () => {
    const open = await inspector();
    photo = await open.open(await png(scene()), 'scene.png', { at: [[320, 130]] });
  });

  it('finds the three conductors that lie there and names each with its true color in the set', () => {
    for (const [at, color] of [
      [[320, 130], 'red'],
      [[320, 210], 'blue'],
      [[240, 330], 'white'],
    ] as const) {
      const there = photo.findings.conductors.find(
        (c) => c.centerline.some((p) => Math.hypot((p[0] - at[0]) / 40, p[1] - at[1]) < 5) && c.widthPx < 24,
      );
      expect(there?.insulation.set).toContain(color);
    }
  });

  it('answers a probe in full-size pixels with the conductor there', () => {
    expect(photo.probes).toHaveLength(1);
    expect(photo.probes[0]!.conductor?.insulation.set).toContain('red');
    expect(photo.probes[0]!.conductor?.insulation.set).not.toContain('blue');
  });

  it('gives every conductor an assignment and no role certainty from color', () => {
    expect(photo.findings.map.assignments).toHaveLength(photo.findings.conductors.length);
    for (const a of photo.findings.map.assignments) expect(a.roles[0]?.probability ?? 0).toBeLessThan(0.999);
  });

  it('rereads under a tapped white and says what the light now rests on', () => {
    const before = photo.light.errorDeg;
    const named = photo.reread([{ at: [50, 30], kind: 'white' }], photo.findings.conductors);
    expect(named).toHaveLength(photo.findings.conductors.length);
    expect(photo.light.basis).toBe('reference in the shot');
    expect(photo.light.errorDeg).toBeLessThan(before);
  });

  it('reads an edited conductor from its center line', () => {
    const [first] = photo.findings.conductors;
    const half = { ...first!, id: 'split', centerline: first!.centerline.slice(0, first!.centerline.length >> 1) };
    const [named] = photo.reread([], [half]);
    expect(named!.id).toBe('split');
    expect(named!.insulation.set.some((name) => first!.insulation.set.includes(name))).toBe(true);
  });

  it('leaves no Mat behind', () => expect(liveMats()).toBe(0));
});

describe('a photo that cannot be read in full', () => {
  it('stops between stages when cancelled', async () => {
    const stop = new AbortController();
    const open = await inspector();
    const reading = open.inspect(await png(scene()), 'scene.png', {
      signal: stop.signal,
      onStage: (stage) => stage === 'segment' && stop.abort(),
    });
    await expect(reading).rejects.toMatchObject({ kind: 'cancelled' });
  });

  it('says what is wrong with a file that is no photo', async () => {
    const open = await inspector();
    await expect(open.inspect(new Uint8Array(0), 'a.jpg')).rejects.toMatchObject({ kind: 'empty file' });
    await expect(open.inspect(new TextEncoder().encode('%PDF-1.7 x'), 'a.jpg')).rejects.toMatchObject({ kind: 'pdf' });
  });

  it('reads a wall without conductors as a photo without conductors', async () => {
    const open = await inspector();
    const { findings } = await open.inspect(await png(blank(400, 300, [120, 118, 115])), 'wall.png');
    expect(findings.conductors).toEqual([]);
    expect(findings.map.assignments).toEqual([]);
  });
});
