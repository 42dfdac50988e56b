import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { NamedConductor, Point } from '../../src/flow';
import { type Inspector, openInspector } from '../../src/inspect/inspect.node.ts';

/**
 * The whole way from bytes to named conductors, on the invented scenes whose truth is known because we drew them
 * (sample-images/manifest.json). They were made by the renderer that made the network's training pictures, so this
 * guards the plumbing, not the figures; those come from photographs (`npm run measure`).
 */
interface Truth {
  readonly color: string | null;
  readonly stripe: string | null;
  readonly points: readonly Point[];
}
interface Scene {
  readonly id: string;
  readonly file: string;
  readonly conductors: readonly Truth[];
}
const folder = new URL('../../sample-images/', import.meta.url);
const { scenes } = JSON.parse(readFileSync(new URL('manifest.json', folder), 'utf8')) as { scenes: Scene[] };

interface Answer {
  readonly scene: string;
  readonly truth: Truth;
  readonly at: Point;
  readonly conductor: NamedConductor | null;
  readonly found: boolean;
}

const nameOf = ({ color, stripe }: Truth): string =>
  color === null ? 'bare' : color === 'green' && stripe === 'yellow' ? 'green-yellow' : color;

const saysRight = (c: NamedConductor | null, truth: Truth): boolean => {
  if (!c) return false;
  const name = nameOf(truth);
  if (name === 'bare') return c.covering === 'bare';
  if (name === 'green-yellow')
    return c.insulation.best === name || (c.insulation.best === 'green' && c.stripe?.name === 'yellow');
  return c.covering === 'insulated' && c.insulation.best === name;
};

const covers = (c: NamedConductor | null, truth: Truth): boolean =>
  saysRight(c, truth) || (c?.insulation.set as readonly string[] | undefined)?.includes(nameOf(truth)) === true;

/** Even-odd test of a point against the outlines of a conductor. */
const holds = (c: NamedConductor, [x, y]: Point): boolean =>
  c.outlines.some((ring) => {
    let inside = false;
    ring.forEach(([xi, yi], i) => {
      const [xj, yj] = ring[(i + ring.length - 1) % ring.length]!;
      if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
    });
    return inside;
  });

describe('practice scenes, bytes to names', () => {
  let inspector: Inspector;
  const answers: Answer[] = [];

  beforeAll(async () => {
    inspector = await openInspector();
    for (const scene of scenes) {
      const asked = scene.conductors.flatMap((truth) => truth.points.map((at) => ({ truth, at })));
      const { findings, probes } = await inspector.inspect(readFileSync(new URL(scene.file, folder)), scene.file, {
        at: asked.map((a) => a.at),
      });
      expect(findings.segmenter).toMatch(/^network/);
      asked.forEach(({ truth, at }, k) => {
        const scale = findings.workingWidth / findings.photo.width;
        const place: Point = [at[0] * scale, at[1] * scale];
        const found = findings.conductors.some((c) => holds(c, place));
        answers.push({ scene: scene.id, truth, at, conductor: probes[k]!.conductor, found });
      });
    }
  }, 240_000);
  afterAll(() => inspector.dispose());

  it('finds at least nine in ten of the places on conductors with nobody pointing', () => {
    expect(answers.length).toBeGreaterThan(70);
    expect(answers.filter((a) => a.found).length / answers.length).toBeGreaterThanOrEqual(0.9);
  });

  it('holds the true name in the set at nine in ten, and is never sure of a wrong one', () => {
    expect(answers.filter((a) => covers(a.conductor, a.truth)).length / answers.length).toBeGreaterThanOrEqual(0.9);
    const sureAndWrong = answers.filter((a) => {
      const confidence = a.conductor?.insulation.confidence ?? 0;
      return confidence >= 0.9 && !saysRight(a.conductor, a.truth);
    });
    expect(sureAndWrong.map((a) => `${a.scene} ${a.at} ${nameOf(a.truth)}`)).toEqual([]);
  });

  it('sees the distinctive stripes of isolated power (NEC 517.160, read) on most conductors that carry one', () => {
    const striped = answers.filter((a) => a.scene === 'isolated-power' && a.truth.stripe !== null);
    expect(striped.length).toBeGreaterThanOrEqual(6);
    const seen = striped.filter((a) => a.conductor?.stripe?.name === a.truth.stripe || saysRight(a.conductor, a.truth));
    expect(seen.length / striped.length).toBeGreaterThanOrEqual(0.6);
  });

  it('would notice wrong answers: with the truths handed round, coverage falls below half', () => {
    const shifted = answers.map((a, k) => ({ ...a, truth: answers[(k + 3) % answers.length]!.truth }));
    expect(shifted.filter((a) => covers(a.conductor, a.truth)).length / shifted.length).toBeLessThan(0.5);
  });
});
