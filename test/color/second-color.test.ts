import { describe, expect, it } from 'vitest';
import { type LightPosterior, nameInsulations } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import { calibratedOpinion, conformalSet, honest, ranked } from '../../src/color/naming/calibrate';
import { capped, type Opinion, opinionOf } from '../../src/color/naming/opinion';
import { SURFACES } from '../../src/color/palette/likelihood';
import { splitColors } from '../../src/color/ribbon/two-colors';
import { COLOR_NAMES, type ColorName } from '../../src/flow';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

const neutral: LightPosterior = summarize(priorModes(), {
  basis: 'scene statistics',
  anchor: 0.8,
  mixedLightDeg: 0,
});
const RED = [0.42, 0.025, 0.03] as const;
const ORANGE = [0.6, 0.16, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;
const GREEN = [0.03, 0.22, 0.05] as const;
const YELLOW = [0.6, 0.45, 0.02] as const;
const WHITE = [0.7, 0.7, 0.7] as const;
const GRAY = [0.22, 0.22, 0.22] as const;
const along = (_: number, t: number): boolean => Math.abs(t) < 0.22;
const read = (recipe: RibbonRecipe, options: Parameters<typeof nameInsulations>[2] = {}) =>
  nameInsulations([makeRibbon(recipe)], neutral, options).readings[0]!;
const share = (reading: ReturnType<typeof read>, name: ColorName): number =>
  reading.insulation.candidates.find((c) => c.name === name)?.probability ?? 0;

describe('two colors on a ribbon', () => {
  it('are a colored base and a paler spot of its own hue only where both are one color: glare, not stripe', () => {
    const glare = [0.62, 0.3, 0.3] as const;
    expect(splitColors(makeRibbon({ body: RED, second: { rgb: glare, where: along } }))).toBeNull();
    // A bright colorless line on a color is a highlight, whatever its share.
    expect(splitColors(makeRibbon({ body: BLUE, second: { rgb: [0.9, 0.9, 0.9], where: along } }))).toBeNull();
  });

  it('are not a dark color beside much paler gray that is as large as it: shade on white', () => {
    const found = splitColors(
      makeRibbon({ body: WHITE, second: { rgb: [0.05, 0.02, 0.02], where: (_, t) => t > -0.02 } }),
    );
    expect(found === null || found.share < 0.42).toBe(true);
  });

  it('are told where a darker color lies on white or gray, with about the share that was drawn', () => {
    for (const body of [WHITE, GRAY]) {
      const found = splitColors(makeRibbon({ body, second: { rgb: RED, where: along } }))!;
      expect(found.second.rgb[0]).toBeGreaterThan(4 * found.second.rgb[1]);
      expect(found.base.rgb[1] / found.base.rgb[0]).toBeGreaterThan(0.9);
      // 4 of the 10 columns looked at.
      expect(found.share).toBeGreaterThan(0.34);
      expect(found.share).toBeLessThan(0.46);
    }
  });

  it('are found wherever the second begins: first rows, last rows, either side', () => {
    for (const where of [
      (_: number, t: number) => t < -0.3,
      (_: number, t: number) => t > 0.3,
      (i: number) => i % 12 < 4,
      (i: number) => i % 12 >= 8,
    ]) {
      const found = splitColors(makeRibbon({ body: WHITE, second: { rgb: BLUE, where } }));
      expect(found?.second.rgb[2]).toBeGreaterThan(3 * (found?.second.rgb[0] ?? 1));
    }
  });
});

describe('what a stripe makes of a reading', () => {
  it('is never surer than its color or than the split: all are probabilities', () => {
    for (const rgb of [RED, BLUE, ORANGE]) {
      const { stripe } = read({ body: WHITE, second: { rgb, where: along } });
      expect(stripe).not.toBeNull();
      expect(stripe!.confidence).toBeGreaterThan(0.4);
      expect(stripe!.confidence).toBeLessThanOrEqual(1);
      expect(stripe!.layout).toBe('along');
    }
  });

  it('leaves the base its name, and makes green with yellow one name', () => {
    expect(read({ body: WHITE, second: { rgb: BLUE, where: along } }).insulation.best).toBe('white');
    const both = read({ body: GREEN, second: { rgb: YELLOW, where: along } });
    expect(both.insulation.best).toBe('green-yellow');
    expect(both.stripe).toBeNull();
  });

  it('is told only where it goes on as a stripe does: not a marker, not another conductor that the trace ran onto', () => {
    const told = (where: (i: number, t: number) => boolean) =>
      read({ body: BLUE, second: { rgb: YELLOW, where } }).stripe;
    expect(told(along)).toMatchObject({ name: 'yellow', layout: 'along' });
    expect(told((i, t) => (i + 6 * t + 30) % 10 < 3)).toMatchObject({ name: 'yellow', layout: 'spiral' });
    expect(told((i, t) => i > 8 && i < 18 + 3 * t)).toBeNull();
    expect(told((i, t) => i > 18 + 5 * t)).toBeNull();
  });

  it('twin: a second red on red is no stripe, and a plain conductor has none', () => {
    expect(read({ body: RED, second: { rgb: [0.3, 0.016, 0.02], where: along } }).stripe).toBeNull();
    expect(read({ body: BLUE }).stripe).toBeNull();
  });
});

describe('a faint second color', () => {
  const few = (i: number, t: number): boolean => t > 0.1 && t < 0.55 && i < 5;

  it('keeps green with a little yellow from being surely green', () => {
    const faint = read({ body: GREEN, second: { rgb: YELLOW, where: few } });
    expect(share(faint, 'green-yellow')).toBeGreaterThan(share(read({ body: GREEN }), 'green-yellow') + 0.1);
  });

  it('twin: a little yellow on blue moves nothing', () => {
    const faint = read({ body: BLUE, second: { rgb: YELLOW, where: few } });
    expect(share(faint, 'green-yellow')).toBeLessThan(0.02);
    expect(share(faint, 'blue')).toBeGreaterThan(0.9);
  });
});

describe('what a network adds', () => {
  const said = (name: ColorName, p: number): Float32Array =>
    Float32Array.from(COLOR_NAMES, (n) => Math.log(n === name ? p : (1 - p) / (COLOR_NAMES.length - 1)));
  const between = [0.52, 0.075, 0.025] as const;

  it('moves a color between two names toward the one it says, for the first conductor and for any other', () => {
    const alone = share(read({ body: between }), 'orange');
    expect(share(read({ body: between }, { networkColor: [said('orange', 0.9)] }), 'orange')).toBeGreaterThan(alone);
    expect(share(read({ body: between }, { networkColor: [said('red', 0.9)] }), 'orange')).toBeLessThan(alone);
    const two = nameInsulations([makeRibbon({ body: BLUE }), makeRibbon({ body: between })], neutral, {
      networkColor: [null, said('orange', 0.9)],
    }).readings;
    const none = nameInsulations([makeRibbon({ body: BLUE }), makeRibbon({ body: between })], neutral).readings;
    expect(share(two[1]!, 'orange')).toBeGreaterThan(share(none[1]!, 'orange'));
    expect(share(two[0]!, 'blue')).toBeCloseTo(share(none[0]!, 'blue'), 2);
  });

  it('moves the covering by what it says of bare metal, both ways', () => {
    const copper = [0.5, 0.28, 0.2] as const;
    const bare = (p: number | null): number => {
      const { covering, coveringConfidence } = read({ body: copper }, { networkBare: [p] });
      return covering === 'bare' ? coveringConfidence : 1 - coveringConfidence;
    };
    expect(bare(0.95)).toBeGreaterThan(bare(null));
    expect(bare(0.05)).toBeLessThan(bare(null));
    expect(bare(0.5)).toBeCloseTo(bare(null), 6);
  });

  it('twin: an even opinion moves nothing', () => {
    const even = Float32Array.from(COLOR_NAMES, () => Math.log(1 / COLOR_NAMES.length));
    expect(share(read({ body: between }, { networkColor: [even] }), 'orange')).toBeCloseTo(
      share(read({ body: between }), 'orange'),
      6,
    );
  });
});

describe('an opinion', () => {
  const weights = (of: Partial<Record<string, number>>): Float64Array =>
    Float64Array.from(SURFACES, (s) => of[s] ?? 0.001);

  it('sums to 1 with bare metal, whatever the temperature', () => {
    for (const temperature of [0.7, 1, 2]) {
      const { names, bare } = opinionOf([weights({ red: 0.6, orange: 0.3, copper: 0.09 })], temperature);
      expect(Object.values(names).reduce((sum, p) => sum + p, 0) + bare).toBeCloseTo(1, 9);
    }
  });

  it('has its best name no surer than at any better quality, wherever that name stands in the list', () => {
    for (const name of ['black', 'red', 'turquoise', 'yellow'] as const) {
      const other = name === 'red' ? 'blue' : 'red';
      const better = weights({ [name]: 0.5, [other]: 0.48 });
      const real = weights({ [name]: 0.9, [other]: 0.08 });
      const { names } = opinionOf([better, real], 1);
      expect(ranked(names)[0]!.name).toBe(name);
      expect(names[name]).toBeCloseTo(0.5 / better.reduce((s, p) => s + p, 0), 9);
      // Twin: a worse quality that is surer caps nothing.
      expect(opinionOf([real, better], 1).names[name]).toBeCloseTo(names[name], 9);
    }
  });

  it('is flatter at a higher temperature and keeps its order', () => {
    const p = weights({ red: 0.7, orange: 0.2 });
    const [cold, hot] = [opinionOf([p], 0.5), opinionOf([p], 2)];
    expect(cold.names.red).toBeGreaterThan(hot.names.red);
    expect(hot.names.red).toBeGreaterThan(hot.names.orange);
  });

  it('capped, gives what it loses to the others; below the ceiling it stays', () => {
    const one = opinionOf([weights({ red: 0.9, orange: 0.05 })], 1);
    const less = capped(one, 0.6);
    expect(less.names.red).toBe(0.6);
    const sum = (o: Opinion): number => Object.values(o.names).reduce((s, p) => s + p, 0) + o.bare;
    expect(sum(less)).toBeCloseTo(sum(one), 9);
    for (const name of COLOR_NAMES) if (name !== 'red') expect(less.names[name]).toBeGreaterThan(one.names[name]);
    expect(capped(one, 0.99)).toBe(one);
  });

  it('made honest by knots keeps its best name best and lies on the line between them', () => {
    const names = Object.fromEntries(COLOR_NAMES.map((n) => [n, 0.3 / 12])) as Record<ColorName, number>;
    const opinion: Opinion = { names: { ...names, red: 0.7 }, bare: 0 };
    const knots = [
      [0.2, 0.1],
      [0.6, 0.5],
      [0.8, 0.7],
    ] as const;
    expect(honest(opinion, knots).names.red).toBeCloseTo(0.6, 12);
    expect(honest({ ...opinion, names: { ...opinion.names, red: 0.7 } }, [[0.9, 0.4]]).names.red).toBeCloseTo(0.4, 12);
    expect(honest(opinion, [[0.1, 0.99]]).names.red).toBeCloseTo(0.99, 12);
    // Never so low that the second would be best.
    const close: Opinion = { names: { ...names, red: 0.4, blue: 0.35 }, bare: 0 };
    expect(ranked(honest(close, [[0.1, 0.01]]).names)[0]!.name).toBe('red');
  });

  it('lost whole is as unsure as can be', () => {
    const ladder = [weights({ red: 0.95 })];
    expect(calibratedOpinion(ladder, 0).names.red).toBeGreaterThan(calibratedOpinion(ladder, 0.5).names.red);
  });
});

describe('the set', () => {
  it('always holds the best name, also where that falls short of its threshold', () => {
    const low = COLOR_NAMES.map((name) => ({ name, probability: name === 'red' ? 1e-4 : 1e-5 })).sort(
      (p, q) => q.probability - p.probability,
    );
    expect(conformalSet(low)).toEqual(['red']);
    expect(conformalSet(low, 'clear')[0]).toBe('red');
  });

  it('is no smaller where the quality is not known, and grows as the names come closer', () => {
    const list = (p: number) => [
      { name: 'red' as const, probability: p },
      { name: 'orange' as const, probability: 1 - p },
    ];
    for (const p of [0.55, 0.8, 0.9, 0.95, 0.99])
      for (const quality of ['clear', 'poor'] as const)
        expect(conformalSet(list(p)).length).toBeGreaterThanOrEqual(conformalSet(list(p), quality).length);
    expect(conformalSet(list(0.5))).toEqual(['red', 'orange']);
    expect(conformalSet(list(0.9999))).toEqual(['red']);
  });
});
