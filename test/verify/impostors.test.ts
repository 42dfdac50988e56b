import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge } from '../../src/verify';
import { assess } from '../../src/verify/assess';
import { LEVELS, logLikelihood, type Sight } from '../../src/verify/likelihood';
import published from '../published/nominal-voltages.json';
import { ground, mapOf, on, read, type Said, WYE_208 } from './fixtures';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { names } from './sim/names';
import { METER, measure, readingOf } from './sim/probe';
import { makeSite, type Wrong } from './sim/site';

const OPTIONS = { meter: METER };
const LOADED = { function: 'AC volts, low impedance' } as const;

let sight = 5_000_000;
/** How much likelier a value is under one sight than under another, natural log, at nominal supply. */
function favors(reading: Reading, one: Sight, other: Sight): number {
  const level = LEVELS.indexOf(1);
  const row = (s: Sight): number => {
    sight += 1;
    return logLikelihood({ ...reading }, s, sight, METER)[level] ?? Number.NaN;
  };
  return row(one) - row(other);
}

const LINE: Sight = { kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 0 };
const NOTHING: Sight = { kind: 'open', reach: 120 };
const ZERO: Sight = { kind: 'volts', nominal: 0, base: 120, loose: false, side: 208, blur: 0 };

describe('ghost voltage (60 to 120 V on 230 V wiring, up to 85 % of live on a high-impedance input: safety.json, read)', () => {
  it('reads as nothing connected well below the line, and as a line at the line', () => {
    for (const share of [0.26, 0.52, published.ghost.shareOfLiveUpTo - 0.05])
      expect(favors(read(on('a'), ground, 120 * share), NOTHING, LINE)).toBeGreaterThan(2);
    // Twin: 118 V speaks for the line.
    expect(favors(read(on('a'), ground, 118), NOTHING, LINE)).toBeLessThan(-2);
  });

  it('falls away on the low-impedance range (about 3 kilohms, read), where a line does not', () => {
    expect(favors(read(on('a'), ground, 0.5, LOADED), NOTHING, LINE)).toBeGreaterThan(3);
    expect(favors(read(on('a'), ground, 98, LOADED), NOTHING, LINE)).toBeLessThan(1);
    expect(favors(read(on('a'), ground, 118, LOADED), NOTHING, LINE)).toBeLessThan(-3);
  });
});

describe('open neutral: it floats between the lines, whose voltages to it still add up to the whole (geometry)', () => {
  const SPLIT: readonly Said[] = [
    { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
    { id: 'y', system: 'us-120-240-1ph', role: 'line 2' },
    { id: 'n', system: 'us-120-240-1ph', role: 'grounded conductor' },
    { id: 'g', system: 'us-120-240-1ph', role: 'equipment grounding conductor' },
  ];
  const map = mapOf(SPLIT);
  const between = (x: number, y: number, n: number): Reading[] => [
    read(on('x'), on('n'), x, LOADED),
    read(on('y'), on('n'), y, LOADED),
    read(on('n'), ground, n),
    read(on('x'), ground, 119.6),
    read(on('y'), ground, 120.2),
    read(on('x'), on('y'), 239.5),
  ];

  it('165 V and 75 V to the neutral, 45 V on it: named first', () => {
    const verdict = judge(map, between(165, 75, 45), OPTIONS);
    expect(verdict.explanations[0]?.message).toMatchObject({
      code: 'verify.explain.open-neutral',
      values: { conductor: 'n' },
    });
    expect(verdict.conductors.find((c) => c.conductor === 'n')?.standing).toBe('disputed');
  });

  it('twin: 119 V and 120 V, 0.4 V on it: nothing to explain', () => {
    expect(judge(map, between(119, 120, 0.4), OPTIONS).explanations).toEqual([]);
  });
});

describe('meter on the wrong function: DC on an AC supply reads about nothing (a mean of zero; no source needed)', () => {
  it('a line that reads 0.2 V once among readings that fit is a slip or the dial, not another conductor', () => {
    const map = mapOf(WYE_208);
    const full = asClaimed(map, OPTIONS);
    const at = full.findIndex(
      (r) =>
        r.function === 'AC volts' && r.from.kind === 'conductor' && r.from.conductor === 'a' && r.to.kind === 'ground',
    );
    const off = full.map((r, i) => (i === at ? { ...r, value: 0.2, confirmed: true } : r));
    const codes = judge(map, off, OPTIONS).explanations.map((e) => e.message.code);
    expect(['verify.explain.wrong-function', 'verify.explain.reading-mistake']).toContain(codes[0]);
    expect(codes).toContain('verify.explain.wrong-function');
    expect(favors(read(on('a'), ground, 0.2), LINE, ZERO)).toBeLessThan(-2);
    // Twin: with the value that is there, nothing is named.
    expect(judge(map, full, OPTIONS).explanations).toEqual([]);
  });
});

describe('each other impostor, as the simulated electrician meets it (voltages by plain geometry in sim/supply.ts)', () => {
  const CASES: readonly (readonly [Wrong, string])[] = [
    ['swapped phases', 'us-208y120'],
    ['reversed polarity', 'us-120-240-1ph'],
    ['neutral and ground exchanged', 'us-208y120'],
    ['shared neutral', 'us-480y277'],
    ['lost phase', 'us-480y277'],
    ['other system', 'us-208y120'],
    ['ground fault', 'us-480-delta'],
  ];
  it.each(CASES)(
    '%s on %s is named first after the required readings; twin: the sound site names nothing',
    (wrong, system) => {
      const play = (trouble: Wrong) => {
        const chance = new Chance(40);
        const site = makeSite(chance, { wrong: trouble, system });
        const readings = assess(site.map, [], OPTIONS).needs.flatMap((n) => {
          const value = measure(n, site, chance);
          return value === null ? [] : [readingOf(n, value)];
        });
        return { site, explanations: judge(site.map, readings, OPTIONS).explanations };
      };
      const { site, explanations } = play(wrong);
      expect(explanations[0] && names(explanations[0], site)).toBe(true);
      expect(play('nothing').explanations).toEqual([]);
    },
  );
});
