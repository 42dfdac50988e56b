import { describe, expect, test } from 'vitest';
import { lengthMm } from '../../src/app/text/length';

describe('a length as a hand writes it', () => {
  test.each([
    ['35', 35],
    [' 70,5 ', 70.5],
    ['70.5 mm', 70.5],
    ['8,5cm', 85],
    ['1 in', 25.4],
    ['1.5"', 38.1],
    ['1 1/2 IN', 38.1],
    ['3/8"', 9.525],
  ])('%s is %d mm (the inch is 25.4 mm by definition)', (text, mm) => {
    expect(lengthMm(text)).toBeCloseTo(mm, 9);
  });

  test.each(['', '0', '-3', 'in', '1/0 in', '3/', '5 ft', '1 2', '1,2,3', 'Infinity', '9'.repeat(400)])(
    'twin: "%s" is none',
    (text) => {
      expect(lengthMm(text)).toBeNull();
    },
  );
});
