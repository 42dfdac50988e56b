import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { estimateLight, twoLamps } from '../../src/color';
import { table } from '../../src/command/table';
import { message, type Raster } from '../../src/flow';
import { openInspector } from '../../src/inspect/inspect.node.ts';
import type { OpenPhoto } from '../../src/inspect/open-photo';
import { createClassicalSegmenter, liveMats } from '../../src/vision';
import { say } from '../../src/words';
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

/** Five conductors before a wall; its left may be of a colder white than its right: the paint alone, or the light on all of it. */
function besideWall(warm: 'wall' | 'all' | 'nothing'): Raster {
  const raster = blank(640, 420, [128, 130, 128]);
  // 22 degrees between the ends, in linear light: (1.14, 1, 0.75) against (0.88, 1, 1.33).
  const tint = (): void => {
    for (let y = 0; y < raster.height; y++)
      for (let x = 0; x < raster.width; x++) {
        const at = (y * raster.width + x) * 4;
        const side = Math.tanh((x - 320) / 60);
        raster.data[at] = raster.data[at]! * 1.14 ** (side / 2.2);
        raster.data[at + 2] = raster.data[at + 2]! * 0.75 ** (side / 2.2);
      }
  };
  if (warm === 'wall') tint();
  const colors = [
    [150, 40, 44],
    [40, 70, 150],
    [170, 168, 164],
    [50, 110, 60],
    [160, 110, 50],
  ] as const;
  for (const [k, color] of colors.entries())
    lay(
      raster,
      [
        [10, 50 + 80 * k],
        [630, 50 + 80 * k],
      ],
      9,
      color,
    );
  if (warm === 'all') tint();
  grain(raster, 2);
  return raster;
}

describe('one lamp or two: one truth', () => {
  const said = async (warm: Parameters<typeof besideWall>[0]) => {
    const { findings } = await (await inspector()).open(await png(besideWall(warm)), 'scene.png');
    const doubts = findings.conductors.flatMap((c) => c.insulation.doubts.map((d) => d.code));
    return {
      photo: findings.capture.reasons.some((r) => r.code === 'photo.capture.mixed-light'),
      conductors: doubts.includes('color.doubt.mixed-light'),
      deg: findings.capture.measures.mixedLightDeg,
    };
  };
  it('a wall of two paints is no second lamp where the conductors show none', async () => {
    const raster = besideWall('wall');
    expect(twoLamps(estimateLight(raster))).toBe(true);
    expect(await said('wall')).toEqual({ photo: false, conductors: false, deg: 0 });
  });
  it('two lamps over all of it are said of the photo, and by as much as they differ', async () => {
    const { photo, deg } = await said('all');
    expect(photo).toBe(true);
    expect(deg).toBeGreaterThan(9);
  });
  it('twin: one lamp, no word', async () => {
    const { photo, conductors, deg } = await said('nothing');
    expect([photo, conductors]).toEqual([false, false]);
    expect(deg).toBeLessThan(3);
  });
});

describe('the camera’s own flash', () => {
  /** EXIF tag 0x9209, bit 0: flash fired (CIPA DC-008, Exif 2.32, from memory); 16 is "off, did not fire". */
  const withFlash = async (value: string): Promise<OpenPhoto> => {
    const { width, height, data } = scene();
    const jpeg = await sharp(Buffer.from(data.buffer), { raw: { width, height, channels: 4 } })
      .removeAlpha()
      .withExif({ IFD2: { Flash: value } })
      .jpeg({ quality: 95 })
      .toBuffer();
    return (await inspector()).open(jpeg, 'scene.jpg');
  };
  it.each(['1', '25'])('is recognised from the file (%s) and said', async (value) => {
    const { findings } = await withFlash(value);
    expect(findings.light.flash).toBe(true);
    expect(table(findings)).toContain(say(message('photo.light.flash')));
  });
  it.each(['0', '16', '24'])('twin: %s is no flash', async (value) => {
    const { findings } = await withFlash(value);
    expect(findings.light.flash).toBeUndefined();
    expect(table(findings)).not.toContain(say(message('photo.light.flash')));
  });
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
