import { describe, expect, test } from 'vitest';
import { begin, HISTORY_LIMIT, redo, step, undo } from '../../src/app/state/history';

describe('history', () => {
  test('undo and redo walk the same steps', () => {
    const all = step(step(begin('a'), 'b'), 'c');
    expect(undo(all).present).toBe('b');
    expect(undo(undo(all)).present).toBe('a');
    expect(redo(undo(all))).toEqual(all);
  });

  test('at either end nothing happens', () => {
    const start = begin('a');
    expect(undo(start)).toBe(start);
    expect(redo(start)).toBe(start);
  });

  test('a new step gives up what was undone', () => {
    const again = step(undo(step(begin('a'), 'b')), 'c');
    expect(redo(again).present).toBe('c');
    expect(undo(again).present).toBe('a');
  });

  test('the same value is no step', () => {
    const start = begin('a');
    expect(step(start, 'a')).toBe(start);
  });

  test('the oldest steps are dropped beyond the limit', () => {
    let history = begin(0);
    for (let i = 1; i <= HISTORY_LIMIT + 5; i++) history = step(history, i);
    expect(history.past).toHaveLength(HISTORY_LIMIT);
    expect(history.past[0]).toBe(5);
  });
});
