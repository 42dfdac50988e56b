import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type ColorName, type PhaseMap, type SiteKnowledge } from '../../src/flow';
import { CONVENTIONS, identify, roleMarginals, SYSTEMS } from '../../src/identify';
import { conductor, type ReadColor, site } from './make';
import { random } from './random';

type Jurisdiction = SiteKnowledge['jurisdiction'];
const JURISDICTIONS = [...new Set(Object.values(SYSTEMS).map((s) => s.jurisdiction))];

/** Systems of a place that some convention gives this color, told from the data alone. */
const wearers = (jurisdiction: Jurisdiction, color: ColorName): string[] => [
  ...new Set(
    CONVENTIONS.filter((c) => c.jurisdiction === jurisdiction && c.looks.some((l) => l.color === color)).map(
      (c) => c.system,
    ),
  ),
];

const crowd = (count: number, color: (i: number) => ReadColor, jurisdiction: Jurisdiction): PhaseMap =>
  identify(
    Array.from({ length: count }, (_, i) => conductor(`c${i}`, color(i))),
    site({ jurisdiction }),
  );

const surest = (map: PhaseMap): number => Math.max(0, ...map.systems.map((s) => s.probability));

describe('one color alone makes no system sure', () => {
  const shared = JURISDICTIONS.flatMap((jurisdiction) =>
    COLOR_NAMES.filter((color) => wearers(jurisdiction, color).length > 1).map((color) => ({ jurisdiction, color })),
  );

  it('asks about most colors of most places', () => {
    expect(shared.length).toBeGreaterThan(30);
  });

  it.each(shared)('$jurisdiction $color, 1, 3 and 24 of it, read well or badly', ({ jurisdiction, color }) => {
    const r = random(shared.length);
    for (const count of [1, 3, 24]) {
      expect(surest(crowd(count, () => color, jurisdiction)), `${count}`).toBeLessThanOrEqual(0.9);
      const noisy = crowd(count, () => ({ [color]: 0.5 + 0.5 * r.next(), [r.pick(COLOR_NAMES)]: 0.1 }), jurisdiction);
      expect(surest(noisy), `${count} noisy`).toBeLessThanOrEqual(0.9);
    }
  });

  it('nor does its number: twenty reds speak for direct current no louder than three', () => {
    const dc = (map: PhaseMap): number =>
      map.systems.filter((s) => s.system.endsWith('dc')).reduce((sum, s) => sum + s.probability, 0);
    expect(dc(crowd(20, () => 'red', 'US'))).toBeLessThan(dc(crowd(3, () => 'red', 'US')) + 0.1);
    expect(dc(crowd(20, () => 'black', 'US'))).toBeLessThan(0.5);
  });

  it('an unsure color of two roles gives no role above 0.9, however many there are', () => {
    const map = crowd(40, () => ({ red: 0.7, brown: 0.3 }), 'US');
    for (const a of map.assignments) expect(roleMarginals(a)[0]!.probability).toBeLessThanOrEqual(0.9);
  });

  it('a pile of coils is no bundle of one role: beside many reds a white stays the likely neutral', () => {
    const colors = [...Array(20).fill('red'), ...Array(6).fill('black'), 'white', 'white', 'white'] as ColorName[];
    const map = crowd(colors.length, (i) => colors[i]!, 'US');
    expect(roleMarginals(map.assignments.at(-1)!)[0]!.role).toBe('grounded conductor');
    expect(roleMarginals(map.assignments[22]!)[0]!.role).not.toBe('positive');
    expect(map.systems.find((s) => s.system === 'us-pv-dc')?.probability ?? 0).toBeLessThan(0.3);
  });

  it('twin: several colors, or one stripe that the rule asks for, may', () => {
    const many = ['brown', 'orange', 'yellow', 'gray', 'brown', 'orange', 'yellow', 'gray'] as const;
    expect(surest(crowd(many.length, (i) => many[i]!, 'US'))).toBeGreaterThan(0.9);
    const striped = ['orange', 'brown'].map((color, i) =>
      conductor(`c${i}`, color as ColorName, { stripe: { name: 'violet', confidence: 0.95, layout: 'along' } }),
    );
    expect(surest(identify(striped, site()))).toBeGreaterThan(0.9);
  });
});
