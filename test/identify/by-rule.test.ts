import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type ColorName, type SiteKnowledge } from '../../src/flow';
import { identify, roleMarginals } from '../../src/identify';
import { COLOR_INDEX, undoAging } from '../../src/identify/model/aging';
import { letterCeiling, linesByHabit, strictnessPrior } from '../../src/identify/model/site-habit';
import { conductors, site } from './make';

describe('whether a rule names the colors of lines', () => {
  it('it does in Canada (CEC 4-036) and the United Kingdom (BS 7671 table 51), for one line by IEC 60445', () => {
    for (const id of ['ca-208y120', 'ca-120-240-1ph', 'uk-230-400', 'uk-230-1ph', 'uk-pre-2004-3ph', 'iec-230-1ph'])
      expect([id, linesByHabit(id)]).toEqual([id, false]);
  });

  it('it does not where NEC 210.5(C)(1) leaves them to the site, nor among three lines by IEC 60445, nor of grounded ones', () => {
    for (const id of ['us-208y120', 'us-480y277', 'us-240-120-high-leg', 'iec-230-400', 'us-switch-legs', 'us-dc'])
      expect([id, linesByHabit(id)]).toEqual([id, true]);
  });

  it('one system of habit is enough to make a site loose, and the shares sum to one', () => {
    const both = strictnessPrior(['ca-208y120', 'us-208y120'], {});
    expect(both).toEqual(strictnessPrior(['us-208y120'], {}));
    expect(both.loose).toBeGreaterThan(strictnessPrior(['ca-208y120'], {}).loose);
  });
});

describe('how sure a phase letter of habit may be', () => {
  const groups: SiteKnowledge['groups'] = [{ kind: 'tag', conductors: ['c1', 'c2', 'c3', 'c4'] }];
  const systems = ['us-208y120'];
  const legendOf = (system: string): SiteKnowledge['legend'] =>
    (
      [
        ['phase A', 'black'],
        ['phase B', 'red'],
        ['phase C', 'blue'],
      ] as const
    ).map(([role, color]) => ({ system, role, color }));
  const black = (k: Partial<SiteKnowledge>): number =>
    roleMarginals(identify(conductors('black', 'red', 'blue', 'white'), site({ systems, ...k })).assignments[0]!)[0]!
      .probability;

  it('is capped while nothing names it, also by a legend that is posted for another supply', () => {
    expect(black({})).toBeLessThanOrEqual(letterCeiling({ groups: [] }, 0) + 1e-9);
    expect(black({ groups })).toBeLessThanOrEqual(letterCeiling({ groups }, 0) + 1e-9);
    expect(letterCeiling({ groups }, 0)).toBeLessThan(letterCeiling({ groups: [] }, 0));
    expect(black({ legend: legendOf('us-480y277') })).toBeLessThanOrEqual(letterCeiling({ groups: [] }, 0) + 1e-9);
  });

  it('twin: it is not by a legend for this one', () => {
    expect(black({ legend: legendOf('us-208y120') })).toBeGreaterThan(letterCeiling({ groups: [] }, 0));
  });
});

describe('ageing undone', () => {
  const made = (seen: ColorName): Float64Array =>
    undoAging(Float64Array.from(COLOR_NAMES, (name) => (name === seen ? 1 : 0)));
  const may = (from: ColorName, seen: ColorName): boolean => made(seen)[COLOR_INDEX[from]]! > 0;

  it('leaves open what bleaches, yellows, pales or gathers dust into the color seen (field reports; sizes assumed)', () => {
    const paths: readonly (readonly [ColorName, ColorName])[] = [
      ['gray', 'white'],
      ['yellow', 'white'],
      ['pink', 'white'],
      ['red', 'pink'],
      ['violet', 'pink'],
      ['violet', 'blue'],
      ['orange', 'yellow'],
      ['white', 'yellow'],
      ['black', 'gray'],
      ['green-yellow', 'green'],
    ];
    for (const [from, to] of paths) expect([from, to, may(from, to)]).toEqual([from, to, true]);
  });

  it('twin: nothing bleaches into black, grows violet, or takes on a stripe, and what is seen stays likeliest', () => {
    for (const name of COLOR_NAMES) {
      expect(may(name, 'violet')).toBe(name === 'violet');
      expect(may(name, 'green-yellow')).toBe(name === 'green-yellow');
      if (name !== 'brown') expect(may(name, 'black')).toBe(name === 'black');
      const back = made(name);
      expect(Math.max(...back)).toBe(back[COLOR_INDEX[name]]);
      for (const v of back) expect(v).toBeGreaterThanOrEqual(0);
    }
  });

  it('changes nothing where every color is as likely as any other', () => {
    const even = new Float64Array(COLOR_NAMES.length).fill(0.5);
    expect([...undoAging(even)]).toEqual([...even]);
  });
});
