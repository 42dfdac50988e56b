import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, IEC_60757, isColorName } from '../../src/flow';
import published from '../published/iec-60757.json';

describe('names of colors', () => {
  it('are told from everything else that a record may hold', () => {
    for (const name of COLOR_NAMES) expect(isColorName(name)).toBe(true);
    for (const other of ['grey', 'Black', '', 3, null, undefined, {}, ['black']])
      expect(isColorName(other)).toBe(false);
  });

  it.each(published.codes.filter((c) => c.color in IEC_60757))(
    '$color is written $code (IEC 60757, read)',
    ({ code, color }) => {
      expect(isColorName(color) && IEC_60757[color]).toBe(code);
    },
  );

  it('twin: every name has letters of its own', () => {
    expect(new Set(Object.values(IEC_60757)).size).toBe(COLOR_NAMES.length);
  });
});
