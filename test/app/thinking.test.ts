import { describe, expect, test, vi } from 'vitest';
import { viewOf } from '../../src/app/state/use-photo-view';
import { createThinker } from '../../src/app/thinking/client';
import { conductorsWithWords } from '../../src/app/thinking/request';
import { type Conclusion, sameAgain } from '../../src/app/thinking/think';
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
const conclusion: Conclusion = {
  map: MAP,
  verdict: {
    conductors: [{ conductor: 'a', standing: 'metered', missing: [], agree: ['r'], contradict: [] }],
    map: MAP,
    explanations: [],
    changes: [],
  },
};

/** Workers whose answers the test writes. */
function fakeWorkers() {
  const calls: ThinkCall[] = [];
  const made: Worker[] = [];
  const make = (): Worker => {
    const worker = { postMessage: (call: ThinkCall) => calls.push(call), terminate: vi.fn() } as unknown as Worker;
    made.push(worker);
    return worker;
  };
  const answer = (call: number, rest: object): void => {
    made.at(-1)?.onmessage?.({ data: { id: calls[call]?.id, ...rest } } as MessageEvent);
  };
  return { calls, made, make, answer };
}

describe('thinker', () => {
  test('each call gets its own answer', async () => {
    const fake = fakeWorkers();
    const thinker = createThinker(fake.make);
    const both = [thinker.conclude(request), thinker.conclude(request)];
    fake.answer(1, { fault: 'no' });
    fake.answer(0, { answer: conclusion });
    await expect(both[0]).resolves.toBe(conclusion);
    await expect(both[1]).rejects.toMatchObject({ kind: 'engine failed' });
  });

  test('a new conclusion makes a plan under way old, and does not wait for one that takes long', async () => {
    const fake = fakeWorkers();
    let time = 0;
    const thinker = createThinker(fake.make, () => time);
    const quick = thinker.first(request);
    void thinker.conclude(request);
    await expect(quick).rejects.toMatchObject({ kind: 'cancelled' });
    // A worker that will be free in a moment is kept.
    expect(fake.made).toHaveLength(1);
    fake.answer(0, { answer: { next: [], required: {}, stops: [] } });
    fake.answer(1, { answer: conclusion });
    const planning = thinker.plan(request);
    time = 5000;
    const concluding = thinker.conclude(request);
    await expect(planning).rejects.toMatchObject({ kind: 'cancelled' });
    expect(fake.made[0]?.terminate).toHaveBeenCalledOnce();
    expect(fake.made).toHaveLength(2);
    fake.answer(3, { answer: conclusion });
    await expect(concluding).resolves.toBe(conclusion);
  });

  test('a conclusion under way is not ended by another', () => {
    const fake = fakeWorkers();
    const thinker = createThinker(fake.make);
    void thinker.conclude(request);
    void thinker.conclude(request);
    expect(fake.made).toHaveLength(1);
  });

  test('a worker that dies fails every call, and the next call starts another', async () => {
    const fake = fakeWorkers();
    const thinker = createThinker(fake.make);
    const lost = thinker.conclude(request);
    fake.made[0]?.onerror?.(new Event('error') as ErrorEvent);
    await expect(lost).rejects.toMatchObject({ kind: 'engine failed' });
    const next = thinker.conclude(request);
    expect(fake.made).toHaveLength(2);
    fake.answer(1, { answer: conclusion });
    await expect(next).resolves.toBe(conclusion);
  });
});

describe('requests that cross into the worker', () => {
  const reading = {
    id: 'r',
    from: { kind: 'conductor', conductor: 'a' },
    to: { kind: 'ground' },
    function: 'AC volts',
    value: 120,
    at: '2026-01-05T10:00:00Z',
    by: 'x',
  } as const;
  const full = { ...request, map: MAP, readings: [reading] };

  test('an equal map and equal readings are the same objects again', () => {
    const known = sameAgain();
    const [first, second] = [known(structuredClone(full)), known(structuredClone(full))];
    expect(second.map).toBe(first.map);
    expect(second.readings[0]).toBe(first.readings[0]);
  });

  test('a changed reading or map is another one (twin)', () => {
    const known = sameAgain();
    const first = known(structuredClone(full));
    const second = known({
      ...full,
      map: { ...MAP, systems: [{ system: 'us-208y120', probability: 1 }] },
      readings: [{ ...reading, value: 121 }],
    });
    expect(second.map).not.toBe(first.map);
    expect(second.map?.systems).toHaveLength(1);
    expect(second.readings[0]).toMatchObject({ value: 121 });
    expect(known(request).map).toBeNull();
  });
});

describe('conductors with the words of the user', () => {
  const word = { name: 'blue', by: 'x', at: '2026-01-05T10:00:00Z' } as const;
  const plain = photo('p', [upright('a', 100), upright('b', 200, 'red')]);

  test('are the same objects while nothing is said anew: what rests on them is not worked out again', () => {
    expect(conductorsWithWords({ ...plain, note: 'x' })[0]).toBe(conductorsWithWords(plain)[0]);
    const said = { ...plain, words: { b: word } };
    const [a, b] = conductorsWithWords(said);
    expect(a).toBe(plain.findings.conductors[0]);
    expect(b).toMatchObject({ id: 'b', userWord: word });
    expect(conductorsWithWords({ ...said, note: 'x' })[1]).toBe(b);
  });

  test('twin: another word, or none any more, makes another', () => {
    const [, b] = conductorsWithWords({ ...plain, words: { b: word } });
    const [, other] = conductorsWithWords({ ...plain, words: { b: { ...word, name: 'red' } } });
    expect(other).not.toBe(b);
    expect(other!.userWord).toMatchObject({ name: 'red' });
    expect('userWord' in conductorsWithWords(plain)[1]!).toBe(false);
  });
});

describe('view of a photo', () => {
  const shown = photo('p', [upright('a', 100), upright('b', 200)]);
  const sure = { conclusion, stale: false, problem: null, again: () => {} };

  test('conductors go by their place in the list', () => {
    const view = viewOf(shown, sure);
    expect([view.labelOf('a'), view.labelOf('b'), view.labelOf('gone')]).toEqual(['1', '2', '?']);
  });

  test('metered holds only while nothing has changed since it was judged', () => {
    expect(viewOf(shown, sure).standingOf('a')).toBe('metered');
    expect(viewOf(shown, { ...sure, stale: true }).standingOf('a')).toBe('by color');
    expect(viewOf(shown, { ...sure, conclusion: null, stale: true }).standingOf('a')).toBe('by color');
    expect(viewOf(shown, sure).standingOf('b')).toBe('by color');
  });

  test('the word of the user goes with its conductor', () => {
    const word = { name: 'blue', by: 'x', at: 'now' } as const;
    const view = viewOf({ ...shown, words: { b: word } }, sure);
    expect(view.conductors.map((c) => c.userWord)).toEqual([undefined, word]);
  });
});
