import { describe, expect, it } from 'vitest';
import type { ColorName, SiteLegendEntry } from '../../src/flow';
import { COLOR_INDEX } from '../../src/identify/model/aging';
import { readEvidence } from '../../src/identify/model/evidence';
import { lookRatio, type RoleLook, roleLook } from '../../src/identify/model/role-look';
import { conductor } from './make';

const posted = (...entries: readonly (readonly [ColorName, ColorName?])[]): readonly SiteLegendEntry[] =>
  entries.map(([color, stripe]) => ({
    system: 'us-208y120',
    role: 'phase A',
    color,
    ...(stripe ? { stripe } : {}),
  }));
const look = (legend: readonly SiteLegendEntry[], role: 'phase A' | 'phase B' = 'phase A'): RoleLook =>
  roleLook('us-208y120', 'site legend', role, 'strict', legend);
const total = ({ shares, stray }: RoleLook): number =>
  shares.reduce((sum, s) => sum + s.share, 0) + stray.reduce((sum, p) => sum + p, 0);
const shareOf = ({ shares }: RoleLook, color: ColorName): number =>
  shares.filter((s) => s.look.color === color).reduce((sum, s) => sum + s.share, 0);

describe('the look of a role on a site', () => {
  it.each([
    ['posted, plain', look(posted(['violet']))],
    ['posted, two looks', look(posted(['violet'], ['orange']))],
    ['habit', look([])],
    ['a role without a convention', roleLook('us-208y120', 'habit', 'traveler', 'strict', [])],
    ['careless', roleLook('us-480y277', 'habit', 'phase C', 'careless', [])],
    ['loose', roleLook('us-480y277', 'habit', 'phase C', 'loose', [])],
    ['grounding', roleLook('us-480y277', 'habit', 'equipment grounding conductor', 'strict', [])],
  ])('is a distribution over what it may wear: %s', (_, found) => {
    expect(total(found)).toBeCloseTo(1, 9);
    expect(Math.min(...found.stray)).toBeGreaterThanOrEqual(0);
    expect(found.bare).toBeGreaterThan(0);
    expect(found.bare).toBeLessThan(1);
  });

  it('takes the colors of the posted legend, alike where it gives several, and habit where it says nothing', () => {
    const two = look(posted(['violet'], ['orange']));
    expect(shareOf(two, 'violet')).toBeGreaterThan(0.4);
    expect(shareOf(two, 'violet')).toBeCloseTo(shareOf(two, 'orange'), 12);
    expect(look(posted(['violet']), 'phase B')).toEqual(look([], 'phase B'));
  });

  it('keeps the stripe that was posted, so that the plain color fits it less than the striped one', () => {
    const striped = look(posted(['orange', 'violet']));
    expect(striped.shares[0]?.look).toEqual({ color: 'orange', stripe: 'violet' });
    const ratio = (stripe: ColorName | null) =>
      lookRatio(
        readEvidence(
          conductor('c', 'orange', { stripe: stripe ? { name: stripe, confidence: 0.9, layout: 'along' } : null }),
        ),
        'phase A',
        striped,
      );
    expect(ratio('violet')).toBeGreaterThan(10 * ratio(null));
    expect(ratio('violet')).toBeGreaterThan(10 * ratio('brown'));
  });

  it('of a role that no convention dresses may be anything, each color alike', () => {
    const { shares, stray } = roleLook('us-208y120', 'habit', 'traveler', 'strict', []);
    expect(shares).toEqual([]);
    expect(Math.max(...stray)).toBeCloseTo(Math.min(...stray), 12);
  });

  it('on a loose site is that of all lines together: the color tells the system and not the phase', () => {
    const loose = (role: 'phase A' | 'phase B') => roleLook('us-480y277', 'habit', role, 'loose', []);
    const ratio = (color: ColorName, role: 'phase A' | 'phase B') =>
      lookRatio(readEvidence(conductor('c', color)), role, loose(role));
    for (const color of ['brown', 'orange', 'yellow'] as const)
      expect(ratio(color, 'phase A')).toBeCloseTo(ratio(color, 'phase B'), 9);
    // Twin: on a strict one it tells the phase (brown, orange, yellow: common practice, no source).
    const strict = (role: 'phase A' | 'phase B') =>
      lookRatio(readEvidence(conductor('c', 'brown')), role, roleLook('us-480y277', 'habit', role, 'strict', []));
    expect(strict('phase A')).toBeGreaterThan(5 * strict('phase B'));
  });

  it('strays more on a careless site than on a strict one, and never to white or green on a strict one', () => {
    const stray = (how: 'strict' | 'careless', color: ColorName) =>
      roleLook('us-208y120', 'habit', 'phase A', how, []).stray[COLOR_INDEX[color]]!;
    expect(stray('careless', 'white')).toBeGreaterThan(stray('strict', 'white'));
    expect(stray('careless', 'green')).toBeGreaterThan(0);
    expect(stray('strict', 'green')).toBe(0);
  });
});

describe('tape on a conductor', () => {
  const ratio = (
    color: ColorName,
    role: 'phase A' | 'grounded conductor' | 'equipment grounding conductor',
    how = 'blue',
  ) =>
    lookRatio(
      readEvidence(
        conductor('c', color, { tape: [{ name: how as ColorName, confidence: 0.95, at: [0, 0], cover: 1 }] }),
      ),
      role,
      roleLook('us-208y120', 'habit', role, 'strict', []),
    );

  it('outranks the insulation: black with white tape is a grounded conductor, with green a grounding one (NEC 200.6(B), 250.119)', () => {
    expect(ratio('black', 'grounded conductor', 'white')).toBeGreaterThan(10 * ratio('black', 'phase A', 'white'));
    expect(ratio('black', 'equipment grounding conductor', 'green')).toBeGreaterThan(
      10 * ratio('black', 'grounded conductor', 'green'),
    );
    // Twin: blue tape on black speaks for a line, not for a neutral.
    expect(ratio('black', 'phase A')).toBeGreaterThan(ratio('black', 'grounded conductor'));
  });
});
