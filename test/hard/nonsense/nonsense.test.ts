import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Inspector, openInspector } from '../../../src/inspect/inspect.node.ts';
import { practiceScenes } from '../meaning/practice-scenes';
import { claimsOf } from './count';
import { NONSENSE } from './pictures';

describe('pictures that show no conductor', () => {
  let inspector: Inspector;
  beforeAll(async () => {
    inspector = await openInspector();
  });
  afterAll(() => inspector.dispose());

  it.each(NONSENSE.filter((n) => n.empty).map((n) => [n.name, n] as const))(
    'nothing is found in: %s',
    async (_, { bytes, name }) => {
      const { findings } = await inspector.inspect(await bytes(), `${name}.jpg`);
      expect(claimsOf(findings)).toMatchObject({ conductors: 0, sureNames: 0, sureRoles: 0 });
      expect(findings.map.systems).toEqual([]);
    },
    60_000,
  );

  it('a wiring diagram is told, and no line of it has a sure name or role', async () => {
    const { bytes, name } = NONSENSE.find((n) => n.name === 'wiring diagram')!;
    const { findings } = await inspector.inspect(await bytes(), `${name}.jpg`);
    expect(findings.conductors.length).toBeGreaterThan(2);
    expect(claimsOf(findings)).toMatchObject({ sureNames: 0, sureRoles: 0, verdict: 'retake' });
    expect(findings.capture.reasons.map((r) => r.code)).toContain('photo.capture.drawn');
  }, 60_000);

  it('twin: no practice scene is taken for a drawing, drawn by a program though it is', async () => {
    for (const { bytes, file } of practiceScenes()) {
      const { findings } = await inspector.inspect(bytes, file);
      expect(findings.capture.reasons.map((r) => r.code)).not.toContain('photo.capture.drawn');
    }
  }, 120_000);

  it('the same counts see a scene that has conductors', async () => {
    const { bytes, file } = practiceScenes()[0]!;
    const { findings } = await inspector.inspect(bytes, file);
    expect(claimsOf(findings).conductors).toBeGreaterThan(3);
  }, 60_000);
});
