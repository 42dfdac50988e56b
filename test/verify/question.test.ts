import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { question } from '../../src/verify';
import { ground, mapOf, on, pole, read, WYE_208 } from './fixtures';

const MAP = mapOf(WYE_208);
const ask = (reading: Reading): string | undefined => question(reading, MAP)?.code;

describe('questioned values', () => {
  it('lets an ordinary reading pass, zero and an odd one too', () => {
    expect(ask(read(on('a'), ground, 119.8))).toBeUndefined();
    expect(ask(read(on('a'), ground, 0))).toBeUndefined();
    expect(ask(read(on('a'), ground, 63))).toBeUndefined();
  });

  it.each([
    ['negative AC', read(on('a'), ground, -119), 'verify.question.negative'],
    ['not a number', read(on('a'), ground, Number.NaN), 'verify.question.not-a-number'],
    ['ten times too high', read(on('a'), ground, 1198), 'verify.question.above-site'],
    ['far above anything', read(on('a'), ground, 119_800), 'verify.question.too-high'],
    ['both leads on one place', read(on('a'), on('a'), 0), 'verify.question.same-place'],
    ['OL on volts', read(on('a'), ground, 'OL'), 'verify.question.overload'],
    ['rotation as volts', read(on('a'), ground, 'ABC'), 'verify.question.kind'],
    [
      'rotation without third lead',
      read(on('a'), on('b'), 'ABC', { function: 'phase rotation' }),
      'verify.question.third-lead',
    ],
    [
      'continuity with the supply on',
      read(on('n'), ground, 0.2, { function: 'continuity' }),
      'verify.question.continuity-live',
    ],
    ['a tone as volts', read(on('a'), ground, 'tone'), 'verify.question.kind'],
    ['volts as a tone', read(on('a'), ground, 3, { function: 'tone' }), 'verify.question.kind'],
    ['a tone with the supply on', read(on('n'), ground, 'tone', { function: 'tone' }), 'verify.question.tone-live'],
    ['DC on an AC system', read(on('a'), ground, 0.1, { function: 'DC volts' }), 'verify.question.direct-on-ac'],
  ] as const)('asks about %s', (_, reading, code) => {
    expect(ask(reading)).toBe(code);
  });

  it('asks about AC on a DC system', () => {
    const map = mapOf([{ id: 'p', system: 'us-dc', role: 'positive' }]);
    const reading = read(on('p'), pole('us-dc', 'negative'), 0.2);
    expect(question(reading, map, { posted: { 'us-dc': 125 } })?.code).toBe('verify.question.ac-on-direct');
  });
});
