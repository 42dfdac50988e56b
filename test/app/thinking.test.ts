import { describe, expect, test, vi } from 'vitest';
import { viewOf } from '../../src/app/state/use-photo-view';
import { createThinker } from '../../src/app/thinking/client';
import type { Thoughts } from '../../src/app/thinking/think';
import type { ThinkCall } from '../../src/app/thinking/worker';
import { photo, upright } from './fixtures/findings';

const MAP = { systems: [], assignments: [], eliminated: [], findings: [] };
const request = {
  conductors: [],
  site: { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} } as const,
  readings: [],
  options: {},
  map: null,
};
const thoughts: Thoughts = {
  map: MAP,
  verdict: {
    conductors: [{ conductor: 'a', standing: 'metered', missing: [], agree: ['r'], contradict: [] }],
    map: MAP,
    explanations: [],
    changes: [],
  },
  plan: { next: [], required: {}, stops: [] },
};

/** A worker whose answers the test writes. */
function fakeWorker() {
  const calls: ThinkCall[] = [];
  const worker = { postMessage: (call: ThinkCall) => calls.push(call), terminate: vi.fn() } as unknown as Worker;
  return { calls, worker, answer: (data: unknown) => worker.onmessage?.({ data } as MessageEvent) };
}

describe('thinker', () => {
  test('each call gets its own answer', async () => {
    const fake = fakeWorker();
    const think = createThinker(() => fake.worker);
    const both = [think(request), think(request)];
    fake.answer({ id: fake.calls[1]!.id, fault: 'no' });
    fake.answer({ id: fake.calls[0]!.id, thoughts });
    await expect(both[0]).resolves.toBe(thoughts);
    await expect(both[1]).rejects.toMatchObject({ kind: 'engine failed' });
  });

  test('a worker that dies fails every call, and the next call starts another', async () => {
    const made: ReturnType<typeof fakeWorker>[] = [];
    const think = createThinker(() => {
      const fake = fakeWorker();
      made.push(fake);
      return fake.worker;
    });
    const lost = think(request);
    made[0]!.worker.onerror?.(new Event('error') as ErrorEvent);
    await expect(lost).rejects.toMatchObject({ kind: 'engine failed' });
    const next = think(request);
    expect(made).toHaveLength(2);
    made[1]!.answer({ id: made[1]!.calls[0]!.id, thoughts });
    await expect(next).resolves.toBe(thoughts);
  });
});

describe('view of a photo', () => {
  const shown = photo('p', [upright('a', 100), upright('b', 200)]);

  test('conductors go by their place in the list', () => {
    const view = viewOf(shown, { thoughts, stale: false, problem: null });
    expect([view.labelOf('a'), view.labelOf('b'), view.labelOf('gone')]).toEqual(['1', '2', '?']);
  });

  test('metered holds only while nothing has changed since it was judged', () => {
    expect(viewOf(shown, { thoughts, stale: false, problem: null }).standingOf('a')).toBe('metered');
    expect(viewOf(shown, { thoughts, stale: true, problem: null }).standingOf('a')).toBe('by color');
    expect(viewOf(shown, { thoughts: null, stale: true, problem: null }).standingOf('a')).toBe('by color');
    expect(viewOf(shown, { thoughts, stale: false, problem: null }).standingOf('b')).toBe('by color');
  });

  test('the word of the user goes with its conductor', () => {
    const word = { name: 'blue', by: 'x', at: 'now' } as const;
    const view = viewOf({ ...shown, words: { b: word } }, { thoughts, stale: false, problem: null });
    expect(view.conductors.map((c) => c.userWord)).toEqual([undefined, word]);
  });
});
