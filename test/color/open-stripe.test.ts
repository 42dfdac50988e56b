import { describe, expect, it } from 'vitest';
import { withOpenStripe } from '../../src/color/naming/name-insulations';
import { eachName, type Names } from '../../src/color/naming/names';
import { COLOR_NAMES, type ColorName } from '../../src/flow';

const sure = (of: ColorName): Names => eachName((name) => (name === of ? 0.97 : 0.03 / (COLOR_NAMES.length - 1)));
const sum = (names: Readonly<Names>): number => COLOR_NAMES.reduce((total, name) => total + names[name], 0);

// IEC 60445:2010, 6.3.2: green-and-yellow for the protective conductor alone, so it may not pass for a sure yellow or green.
describe('a stripe whose color cannot be told', () => {
  it.each(['yellow', 'green'] as const)('keeps %s from being sure: it may be green-yellow', (name) => {
    const open = withOpenStripe(sure(name), 0.64);
    expect(open[name]).toBeLessThan(0.75);
    expect(open['green-yellow']).toBeGreaterThan(0.2);
    expect(sum(open)).toBeCloseTo(sum(sure(name)), 10);
  });
  it('never makes green-yellow likelier than the color that is seen', () => {
    const open = withOpenStripe(sure('yellow'), 1);
    expect(open.yellow).toBeCloseTo(0.485, 3);
    expect(open['green-yellow']).toBeLessThan(open.yellow + 0.01);
  });
  it('twin: leaves other colors, and what readers say of many a plain one, alone', () => {
    expect(withOpenStripe(sure('red'), 0.64).red).toBe(0.97);
    expect(withOpenStripe(sure('yellow'), 0.1).yellow).toBe(0.97);
  });
});
