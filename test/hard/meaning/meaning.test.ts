import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Inspector, openInspector } from '../../../src/inspect/inspect.node.ts';
import { pixelsOf, TRANSFORMS } from '../images/transforms';
import { changeOf } from './compare';
import { practiceScenes } from './practice-scenes';
import { type Outcome, rates, readChanged } from './read-changed';

/** One scene under a few changes; all of them on all photos: `npm run hard:meaning`. */
const TRIED = ['unchanged', 'mirror', 'JPEG quality 60', 'exposure -1 stop', 'light +1500 K'];

describe('what must not change what a photo means', () => {
  let inspector: Inspector;
  let outcomes: readonly Outcome[];

  beforeAll(async () => {
    inspector = await openInspector();
    const scene = practiceScenes().find((s) => s.file === 'gutter-208y120.jpg')!;
    const transforms = TRANSFORMS.filter((t) => TRIED.includes(t.name));
    expect(transforms).toHaveLength(TRIED.length);
    outcomes = await readChanged(inspector, scene, transforms);
  }, 180_000);
  afterAll(() => inspector.dispose());

  it('makes no name and no role confidently different', () => {
    expect(outcomes.length).toBeGreaterThan(300);
    expect(outcomes.filter((o) => o.change === 'confidently different')).toEqual([]);
  });

  it('leaves most answers alone, and all where nothing was changed', () => {
    for (const { transform, compared, unsure } of rates(outcomes)) {
      expect(unsure / compared).toBeLessThan(0.25);
      if (transform === 'unchanged') expect(unsure).toBe(0);
    }
  });

  it('would notice: with the answers handed round, sure names differ', () => {
    const pointed = outcomes.filter((o) => o.way === 'pointed');
    const shifted = pointed.map((o, k) => {
      const after = pointed[(k + 5) % pointed.length]!.after;
      return { ...o, after, change: changeOf(o.before, after, o.truth) };
    });
    for (const { rate } of rates(shifted)) expect(rate).toBeGreaterThan(0.2);
  });
});

describe('what counts as a change', () => {
  const said = (name: string, confidence: number) => ({ name, confidence, set: name.split(' or ') });

  it.each([
    ['red', 0.99, 'red', 0.5, undefined, 'same'],
    ['red', 0.99, 'orange', 0.89, undefined, 'unsure'],
    ['red', 0.99, 'orange', 0.9, undefined, 'confidently different'],
    ['red', 0.4, 'orange', 0.9, undefined, 'confidently different'],
    ['red or orange', 0.4, 'orange', 0.9, undefined, 'decided'],
    ['red or orange', 0.4, 'orange', 0.9, 'red', 'confidently different'],
    ['red or orange', 0.95, 'orange', 0.9, undefined, 'confidently different'],
    ['red', 0.4, 'orange', 0.9, 'orange', 'mended'],
    ['red', 0.4, 'orange', 0.9, 'red', 'confidently different'],
  ] as const)('%s %d to %s %d, truth %s: %s', (before, p, after, q, truth, change) => {
    expect(changeOf(said(before, p), said(after, q), truth)).toBe(change);
  });
});

describe('places follow their transform', () => {
  it.each(TRANSFORMS.map((t) => [t.name, t] as const))('%s', async (_, transform) => {
    // A red dot on gray: where the point is said to go, the picture is reddest.
    const [width, height] = [300, 200];
    const data = Buffer.alloc(width * height * 3, 128);
    const dot = [90, 70] as const;
    for (let y = -8; y <= 8; y++)
      for (let x = -8; x <= 8; x++) data.set([200, 40, 40], ((dot[1] + y) * width + dot[0] + x) * 3);
    const photo = { width, height, data };
    const moved = transform.move(dot, photo)!;
    const after = await pixelsOf(await transform.apply(photo));
    const k = (Math.floor(moved[1]) * after.width + Math.floor(moved[0])) * 3;
    expect(after.data[k]! - after.data[k + 1]!).toBeGreaterThan(50);
  });
});
