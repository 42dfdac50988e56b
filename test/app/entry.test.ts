import { describe, expect, test } from 'vitest';
import { EMPTY_ENTRY, type Entry, entered, type PadKey, press } from '../../src/app/screens/meter/entry';

const type = (...keys: readonly PadKey[]): Entry => keys.reduce(press, EMPTY_ENTRY);

describe('number pad', () => {
  test('digits, one point, delete', () => {
    expect(entered(type('1', '2', '0', '.', '.', '4'), 'AC volts')).toBe(120.4);
    expect(entered(type('1', '2', 'back'), 'AC volts')).toBe(1);
    expect(entered(type('.', '5'), 'continuity')).toBe(0.5);
  });

  test('nothing typed is no value, and neither is a point or a sign alone', () => {
    expect(entered(EMPTY_ENTRY, 'AC volts')).toBeNull();
    expect(entered(type('.'), 'AC volts')).toBeNull();
    expect(entered(type('-'), 'DC volts')).toBeNull();
    expect(entered(type('0'), 'AC volts')).toBe(0);
  });

  test('the sign turns and turns back', () => {
    expect(entered(type('4', '8', '-'), 'DC volts')).toBe(-48);
    expect(entered(type('4', '8', '-', '-'), 'DC volts')).toBe(48);
  });

  test('no more digits than a meter shows', () => {
    expect(entered(type('1', '2', '3', '4', '5', '6', '7'), 'AC volts')).toBe(123456);
  });

  test('OL belongs to volts and ohms, an order only to phase rotation', () => {
    expect(entered({ kind: 'answer', value: 'OL' }, 'continuity')).toBe('OL');
    expect(entered({ kind: 'answer', value: 'OL' }, 'phase rotation')).toBeNull();
    expect(entered({ kind: 'answer', value: 'ABC' }, 'phase rotation')).toBe('ABC');
    expect(entered({ kind: 'answer', value: 'CBA' }, 'AC volts')).toBeNull();
    expect(entered(type('1'), 'phase rotation')).toBeNull();
  });

  test('a tone is heard or not, and nothing else is', () => {
    expect(entered({ kind: 'answer', value: 'no tone' }, 'tone')).toBe('no tone');
    expect(entered({ kind: 'answer', value: 'OL' }, 'tone')).toBeNull();
    expect(entered({ kind: 'answer', value: 'tone' }, 'continuity')).toBeNull();
    expect(entered(type('1'), 'tone')).toBeNull();
  });

  test('a digit after OL starts anew', () => {
    expect(entered(press({ kind: 'answer', value: 'OL' }, '7'), 'AC volts')).toBe(7);
  });
});
