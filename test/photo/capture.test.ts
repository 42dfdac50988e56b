import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { estimateLight, posteriorOf } from '../../src/color';
import type { PhotoFacts, Raster } from '../../src/flow';
import { captureVerdict, withConductorWidths, withSettledLight } from '../../src/photo';
import { say } from '../../src/words';

const facts = (extra: Partial<PhotoFacts> = {}): PhotoFacts => ({
  name: 'a.jpg',
  format: 'jpeg',
  byteLength: 1,
  sha256: '0'.repeat(64),
  width: 640,
  height: 480,
  orientation: 1,
  ...extra,
});

/** Seeded noise (mulberry32), so that every run sees the same picture. */
function random(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const gauss = (next: () => number): number => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());

interface Options {
  readonly blur?: number;
  readonly noise?: number;
  readonly gain?: number;
  readonly tint?: (x: number, y: number) => readonly [number, number, number];
}

/** Upright and level bars, dark and light, blurred by sharp (an independent Gaussian), then noisy. */
async function bars({ blur = 0, noise = 0, gain = 1, tint = () => [1, 1, 1] }: Options = {}): Promise<Raster> {
  const [width, height] = [640, 480];
  const gray = Buffer.alloc(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) gray[y * width + x] = (Math.floor(x / 40) + Math.floor(y / 40)) % 2 ? 190 : 60;
  let image = sharp(gray, { raw: { width, height, channels: 1 } });
  if (blur > 0) image = image.blur(blur);
  const plane = await image.extractChannel(0).raw().toBuffer();
  const next = random(7);
  const data = new Uint8ClampedArray(width * height * 4);
  for (let i = 0; i < plane.length; i++) {
    const t = tint(i % width, Math.floor(i / width));
    for (let k = 0; k < 3; k++)
      data[i * 4 + k] = (plane[i] as number) * gain * (t[k] as number) + (noise ? noise * gauss(next) : 0);
    data[i * 4 + 3] = 255;
  }
  return { width, height, data };
}

const codes = (v: { reasons: readonly { code: string }[] }): string[] => v.reasons.map((r) => r.code);

describe('capture verdict', () => {
  it('passes a sharp, even picture', async () => {
    const v = captureVerdict(await bars({ blur: 0.7, noise: 1 }), facts());
    expect(v.verdict).toBe('good');
    expect(v.reasons).toEqual([]);
  });

  it.each([0.7, 1, 1.5, 2.5, 4])('measures a Gaussian blur of %f px to a fifth', async (blur) => {
    const { measures } = captureVerdict(await bars({ blur, noise: 1 }), facts());
    expect(Math.abs(measures.blurPx - blur) / blur).toBeLessThan(0.2);
  });

  it('asks to take a badly blurred photo again, a soft one with a word', async () => {
    expect(captureVerdict(await bars({ blur: 3 }), facts()).verdict).toBe('limited');
    const v = captureVerdict(await bars({ blur: 7 }), facts());
    expect([v.verdict, codes(v)[0]]).toEqual(['retake', 'photo.capture.blurred']);
  });

  it.each([2, 5, 12])('measures noise of %f levels to a quarter', async (noise) => {
    const { measures } = captureVerdict(await bars({ blur: 1, noise }), facts());
    // The luma weights average three independent channels: sqrt(0.2126^2 + 0.7152^2 + 0.0722^2) = 0.7496.
    expect(Math.abs(measures.noiseLevel - noise * 0.7496) / noise).toBeLessThan(0.25);
  });

  it('finds darkness and asks for light, more so when the flash was off', async () => {
    const dark = await bars({ gain: 0.12 });
    expect(codes(captureVerdict(dark, facts()))).toContain('photo.capture.dark');
    expect(codes(captureVerdict(dark, facts({ flashFired: false })))).toContain('photo.capture.dark-no-flash');
  });

  it('finds clipping and measures its share', async () => {
    const v = captureVerdict(await bars({ gain: 1.4 }), facts());
    expect(v.measures.clippedShare).toBeCloseTo(0.5, 1);
    expect(codes(v)).toContain('photo.capture.clipped');
  });

  it('finds a cast from the light estimate it is given, and none without', async () => {
    const light = posteriorOf({ mean: [1.3, 1, 0.6], xy: [0.4, 0.4], errorDeg: 3, basis: 'scene statistics' }, 0.8);
    const warm = await bars({ blur: 0.7 });
    expect(codes(captureVerdict(warm, facts(), light))).toContain('photo.capture.cast');
    expect(codes(captureVerdict(warm, facts()))).not.toContain('photo.capture.cast');
  });

  it('finds two lamps of different color, and not one lamp (twin)', async () => {
    const two = await bars({ blur: 0.7, tint: (x) => (x < 320 ? [1.08, 1, 0.9] : [0.92, 1, 1.08]) });
    const one = await bars({ blur: 0.7, tint: () => [1.03, 1, 0.96] });
    expect(captureVerdict(two, facts(), estimateLight(two)).measures.mixedLightDeg).toBeGreaterThan(8);
    expect(captureVerdict(one, facts(), estimateLight(one)).measures.mixedLightDeg).toBeLessThan(1);
  });

  it('what the conductors tell of the lamps outranks the parts of the picture, both ways', async () => {
    const raster = await bars({ blur: 0.7 });
    const light = { ...estimateLight(raster), mixedLightDeg: 20 };
    const spread = captureVerdict(raster, facts(), light);
    expect([spread.verdict, codes(spread)]).toEqual(['limited', ['photo.capture.mixed-light']]);
    const one = withSettledLight(spread, { ...light, mixedLightDeg: 0, toldByConductors: true });
    expect([one.verdict, one.reasons, one.measures.mixedLightDeg]).toEqual(['good', [], 0]);
    const even = captureVerdict(raster, facts(), { ...light, mixedLightDeg: 2 });
    const two = withSettledLight(even, { ...light, mixedLightDeg: 12, toldByConductors: true });
    expect([two.verdict, codes(two), two.measures.mixedLightDeg]).toEqual([
      'limited',
      ['photo.capture.mixed-light'],
      12,
    ]);
    // Twin: where the conductors could not tell, what was said stays said, once.
    expect(withSettledLight(spread, { ...light, toldByConductors: false })).toEqual(spread);
    expect(withSettledLight(even, { ...light, mixedLightDeg: 2, toldByConductors: false })).toEqual(even);
  });

  it('a second lamp that goes takes no other reason with it', async () => {
    const raster = await bars({ blur: 7 });
    const light = { ...estimateLight(raster), mixedLightDeg: 20 };
    const settled = withSettledLight(captureVerdict(raster, facts(), light), {
      ...light,
      mixedLightDeg: 0,
      toldByConductors: true,
    });
    expect([settled.verdict, codes(settled)]).toEqual(['retake', ['photo.capture.blurred']]);
  });

  it('blames the flash where it fired, and not where it did not (twin)', async () => {
    const burnt = await bars({ gain: 1.4 });
    expect(codes(captureVerdict(burnt, facts({ flashFired: true })))).toContain('photo.capture.clipped-flash');
    expect(codes(captureVerdict(burnt, facts({ flashFired: false })))).toContain('photo.capture.clipped');
    const two = { ...estimateLight(burnt, true), mixedLightDeg: 20 };
    expect(codes(captureVerdict(burnt, facts({ flashFired: true }), two))).toContain('photo.capture.mixed-light-flash');
  });

  it('never praises a worse photo: each fault added keeps or worsens the verdict', async () => {
    const order = { good: 0, limited: 1, retake: 2 };
    let last = 0;
    for (const options of [{ blur: 0.7 }, { blur: 3 }, { blur: 3, gain: 0.1 }, { blur: 7, gain: 0.1, noise: 10 }]) {
      const now = order[captureVerdict(await bars(options), facts()).verdict];
      expect(now).toBeGreaterThanOrEqual(last);
      last = now;
    }
    expect(last).toBe(2);
  });

  it('has a sentence for every reason', async () => {
    const v = captureVerdict(await bars({ blur: 7, gain: 0.1, noise: 30 }), facts({ width: 90, animated: true }));
    for (const reason of [...v.reasons, ...withConductorWidths(v, [2]).reasons]) {
      expect(say(reason)).not.toBe(reason.code);
      expect(say(reason)).not.toMatch(/\{\w+\}/);
    }
  });
});

describe('conductor widths', () => {
  it('adds that conductors are thin, worst first, and leaves wide ones alone', async () => {
    const good = captureVerdict(await bars({ blur: 0.7 }), facts());
    expect(withConductorWidths(good, [14, 18, 30])).toEqual(good);
    expect(withConductorWidths(good, [])).toEqual(good);
    expect(withConductorWidths(good, [5, 5, 5]).verdict).toBe('limited');
    const thin = withConductorWidths(good, [2, 2, 2]);
    expect([thin.verdict, codes(thin)[0]]).toEqual(['retake', 'photo.capture.thin']);
  });
});
