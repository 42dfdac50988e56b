import { describe, expect, it } from 'vitest';
import { identify } from '../../src/identify';
import { conductor, site } from './make';

const tape = [{ name: 'blue', confidence: 0.9, at: [5, 5] }] as const;
const said = (word: 'blue' | 'red' | null) => ({
  userWord: { name: 'black', tape: word, by: 'Invented Tester', at: '2026-11-25T12:00:00.000Z' } as const,
});
const roleOf = (more: Parameters<typeof conductor>[2]): string => {
  const others = [conductor('n', 'white'), conductor('g', 'green'), conductor('b', 'red'), conductor('a', 'black')];
  const map = identify([conductor('x', 'black', more), ...others], site({ systems: ['us-208y120'] }));
  return map.assignments.find((a) => a.conductor === 'x')!.roles[0]!.role;
};

describe('re-identified conductors', () => {
  it('black with blue tape is phase C of a 208Y/120 V system (US habit, common practice, no source)', () => {
    expect(roleOf({ tape })).toBe('phase C');
  });
  it('twin: without tape it is not', () => {
    expect(roleOf({})).not.toBe('phase C');
  });
  it('what the user says of tape outranks what was read, both ways', () => {
    expect(roleOf({ tape, ...said(null) })).not.toBe('phase C');
    expect(roleOf({ tape: [], ...said('blue') })).toBe('phase C');
  });
});
