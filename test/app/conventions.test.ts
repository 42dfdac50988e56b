import { afterEach, describe, expect, test } from 'vitest';
import { findConventions, forceWord, lookWords } from '../../src/app/screens/help/find-conventions';
import { speak } from '../../src/app/text/speech';
import { CONVENTIONS } from '../../src/identify';

afterEach(() => speak({ locale: 'en', tag: 'en', decimal: '.' }));

describe('searching the color habits', () => {
  test('nothing asked shows every line of the place, none of another', () => {
    const all = findConventions('US', '');
    expect(all).toHaveLength(CONVENTIONS.filter((c) => c.jurisdiction === 'US').length);
    expect(all.length).toBeGreaterThan(50);
  });

  test('every word asked for must occur, whatever its case', () => {
    // NEC 110.15: the high leg is orange.
    const found = findConventions('US', 'ORANGE high 110.15');
    expect(found.length).toBeGreaterThan(0);
    for (const line of found) expect([line.role, lookWords(line)[0]]).toEqual(['high leg', 'orange']);
    expect(findConventions('US', 'orange high nonsense')).toEqual([]);
  });

  test('in Spanish, with accents or without', () => {
    speak({ locale: 'es', tag: 'es', decimal: ',' });
    expect(findConventions('IEC', 'marron').length).toBeGreaterThan(0);
    expect(findConventions('IEC', 'marron')).toEqual(findConventions('IEC', 'marrón'));
    expect(findConventions('IEC', 'brown')).toEqual([]);
  });

  test('a system stands together, its phases in order', () => {
    const roles = findConventions('US', '480Y/277').map((c) => c.role);
    expect(roles.indexOf('phase A')).toBeLessThan(roles.indexOf('grounded conductor'));
    const systems = findConventions('US', '').map((c) => c.system);
    const turns = systems.filter((s, i) => s !== systems[i - 1]).length;
    expect(turns).toBe(new Set(systems).size);
  });

  test('every line says what it rests on', () => {
    for (const line of CONVENTIONS) expect(forceWord(line)).not.toMatch(/\{|screen\./);
  });
});
