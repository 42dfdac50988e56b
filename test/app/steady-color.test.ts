import { describe, expect, test } from 'vitest';
import { steadyColor } from '../../src/app/screens/shoot/steady-color';
import type { PassingColor } from '../../src/inspect';

const frame = (red: number, bare = 0): PassingColor => ({
  names: [
    { name: 'red', probability: red },
    { name: 'brown', probability: 1 - red },
  ],
  bare,
});
const seenIn = (...frames: readonly (PassingColor | null)[]) =>
  frames.reduce((now, next) => steadyColor(now.latest, next), steadyColor([], null));

describe('what passes in the loupe', () => {
  test('one lucky frame is not surer than its neighbors', () => {
    expect(seenIn(frame(0.6), frame(0.6), frame(0.99)).shown?.names[0]).toMatchObject({ name: 'red' });
    expect(seenIn(frame(0.6), frame(0.6), frame(0.99)).shown?.names[0]?.probability).toBeCloseTo(0.73, 9);
    // Twin: alone it would be.
    expect(seenIn(frame(0.99)).shown?.names[0]?.probability).toBeCloseTo(0.99, 9);
  });

  test('a name that a recent frame held possible is not left out', () => {
    const sure: PassingColor = { names: [{ name: 'red', probability: 1 }], bare: 0 };
    expect(seenIn(frame(0.5), sure).shown?.names.map((c) => c.name)).toEqual(['red', 'brown']);
    expect(seenIn(frame(0.5), sure, sure, sure, sure, sure).shown?.names.map((c) => c.name)).toEqual(['red']);
  });

  test('without a conductor it fades within as many frames as were kept, and says nothing then', () => {
    expect(seenIn(frame(0.6), frame(0.6), null).shown).not.toBeNull();
    expect(seenIn(frame(0.6), frame(0.6), null, null).shown).toBeNull();
    expect(seenIn(null).shown).toBeNull();
  });
});
