import { afterEach, describe, expect, it, vi } from 'vitest';
import { createInspectClient, type PhotoSource } from '../../src/inspect';
import type { Reply, Request } from '../../src/inspect/protocol';

/** Stands in for the worker: answers as told, counts its own ends. */
class FakeWorker {
  static made: FakeWorker[] = [];
  onmessage: ((event: { data: Reply }) => void) | null = null;
  onerror: ((event: unknown) => void) | null = null;
  onmessageerror: ((event: unknown) => void) | null = null;
  ended = false;
  readonly calls: Request['call']['do'][] = [];

  constructor(private readonly answer: (request: Request) => Reply[]) {
    FakeWorker.made.push(this);
  }

  postMessage(request: Request): void {
    this.calls.push(request.call.do);
    queueMicrotask(() => {
      for (const data of this.answer(request)) this.onmessage?.({ data });
    });
  }

  terminate(): void {
    this.ended = true;
  }
}

const client = (answer: (request: Request) => Reply[]) =>
  createInspectClient(() => new FakeWorker(answer) as unknown as Worker);
const photo = (id: string): PhotoSource => ({ id, name: `${id}.jpg`, bytes: new Blob(['x']) });
const answers = (request: Request): Reply[] => [
  { id: request.id, stage: 'segment', share: 0.5 },
  { id: request.id, answer: request.call.do === 'reread' ? [] : null },
];

afterEach(() => {
  FakeWorker.made = [];
  vi.useRealTimers();
});

describe('the page side of the engine', () => {
  it('opens a photo once and traces on it, opens another before tracing on that', async () => {
    const engine = client(answers);
    await engine.trace(photo('a'), [1, 2]);
    await engine.trace(photo('a'), [3, 4]);
    await engine.trace(photo('b'), [3, 4]);
    expect(FakeWorker.made.map((w) => w.calls)).toEqual([['open', 'trace', 'trace', 'open', 'trace']]);
    engine.dispose();
  });

  it('warms up once, and what fails then is told by the photo that comes', async () => {
    const engine = client(answers);
    engine.warmUp();
    await engine.inspect(photo('a'));
    engine.warmUp();
    expect(FakeWorker.made.map((w) => w.calls)).toEqual([['warm up', 'open']]);
    engine.dispose();

    FakeWorker.made = [];
    const refused = client(({ id }) => [{ id, problem: 'engine unavailable' }]);
    refused.warmUp();
    await expect(refused.inspect(photo('a'))).rejects.toMatchObject({ kind: 'engine unavailable' });
    refused.dispose();
  });

  it('a photo need not wait for a warming up that hangs, and can be stopped', async () => {
    const engine = client((request) => (request.call.do === 'warm up' ? [] : answers(request)));
    engine.warmUp();
    await engine.inspect(photo('a'));
    const hanging = client(() => []);
    hanging.warmUp();
    const stop = new AbortController();
    const reading = hanging.inspect(photo('a'), { signal: stop.signal });
    stop.abort();
    await expect(reading).rejects.toMatchObject({ kind: 'cancelled' });
    engine.dispose();
    hanging.dispose();
  });

  it('tells stages', async () => {
    const stages: string[] = [];
    const engine = client(answers);
    await engine.inspect(photo('a'), { onStage: (stage) => stages.push(stage) });
    expect(stages).toEqual(['segment']);
    engine.dispose();
  });

  it('ends the worker when cancelled, and starts another for the next call', async () => {
    const engine = client((request) => (FakeWorker.made.length === 1 ? [] : answers(request)));
    const stop = new AbortController();
    const reading = engine.inspect(photo('a'), { signal: stop.signal });
    setTimeout(() => stop.abort(), 5);
    await expect(reading).rejects.toMatchObject({ kind: 'cancelled' });
    expect(FakeWorker.made[0]!.ended).toBe(true);
    await engine.inspect(photo('a'));
    expect(FakeWorker.made).toHaveLength(2);
    engine.dispose();
  });

  it('hands on the problem with its values, and a crash as a failed engine', async () => {
    const refusing = client(({ id }) => [{ id, problem: 'picture too small', values: { width: 1, height: 1 } }]);
    await expect(refusing.inspect(photo('a'))).rejects.toMatchObject({
      kind: 'picture too small',
      what: { values: { width: 1, height: 1 } },
    });
    refusing.dispose();
    const crashing = client(() => {
      FakeWorker.made.at(-1)!.onerror?.({});
      return [];
    });
    await expect(crashing.inspect(photo('a'))).rejects.toMatchObject({ kind: 'engine failed' });
    crashing.dispose();
  });

  it('starts afresh after a fault inside the worker, not after a bad photo', async () => {
    const kinds = ['engine failed', 'not a picture'] as const;
    for (const problem of kinds) {
      FakeWorker.made = [];
      const engine = client((request) =>
        FakeWorker.made[0]!.calls.length === 1 ? [{ id: request.id, problem }] : answers(request),
      );
      await expect(engine.inspect(photo('a'))).rejects.toMatchObject({ kind: problem });
      expect(FakeWorker.made[0]!.ended).toBe(problem === 'engine failed');
      engine.dispose();
    }
  });

  it('notices the silent end of a worker by the lock it lets go of', async () => {
    const granted: (() => void)[] = [];
    const locks = {
      request: (_: string, __: { signal: AbortSignal }, then: () => void) =>
        new Promise<void>((resolve) => {
          granted.push(() => {
            then();
            resolve();
          });
        }),
    };
    vi.stubGlobal('navigator', { locks });
    const engine = client(() => [{ life: 'a lock' }]);
    const reading = engine.inspect(photo('a'));
    setTimeout(() => granted[0]!(), 5);
    await expect(reading).rejects.toMatchObject({ kind: 'engine failed' });
    expect(FakeWorker.made[0]!.ended).toBe(true);
    vi.unstubAllGlobals();
    engine.dispose();
  });

  it('gives the memory back after five idle minutes', async () => {
    const engine = client(answers);
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    await engine.inspect(photo('a'));
    vi.advanceTimersByTime(4 * 60_000);
    expect(FakeWorker.made[0]!.ended).toBe(false);
    vi.advanceTimersByTime(2 * 60_000);
    expect(FakeWorker.made[0]!.ended).toBe(true);
  });
});
