import 'fake-indexeddb/auto';
import { describe, expect, test } from 'vitest';
import { openArrivals } from '../../src/record';

/** Web Locks of one browser, as far as they are used: whoever holds a lock can be ended with all it holds. */
function browser() {
  const held = new Map<string, object>();
  const page = (): { locks: LockManager; end: () => void } => {
    const me = {};
    const locks = {
      request: async (name: string, work: () => Promise<void>) => {
        held.set(name, me);
        await work();
        held.delete(name);
      },
      query: async () => ({ held: [...held.keys()].map((name) => ({ name })), pending: [] }),
    } as unknown as LockManager;
    return {
      locks,
      end: () => {
        for (const [name, who] of held) if (who === me) held.delete(name);
      },
    };
  };
  return { page };
}

const NOTE = { name: 'panel.jpg', journey: 'map', job: 'j', at: { id: 't', panel: 'A', space: 3 } } as const;
const photo = (text: string): Blob => new Blob([text], { type: 'image/jpeg' });

describe('photos on their way in', () => {
  test('a photo of a page that is no more is there, byte for byte, with where it goes', async () => {
    const { page } = browser();
    const first = page();
    await openArrivals('gone', first.locks).keep('p', photo('bytes'), NOTE);
    first.end();
    const [one, ...others] = await openArrivals('gone', page().locks).left();
    expect(others).toEqual([]);
    expect(one).toMatchObject({ id: 'p', ...NOTE });
    expect(await one!.bytes.text()).toBe('bytes');
    expect(one!.bytes.type).toBe('image/jpeg');
  });

  test('twin: while that page is open the photo is its own, and so it is in that page', async () => {
    const { page } = browser();
    const first = openArrivals('open', page().locks);
    await first.keep('p', photo('bytes'), NOTE);
    expect(await openArrivals('open', page().locks).left()).toEqual([]);
    expect(await first.left()).toEqual([]);
  });

  test('what was dropped is gone, also where it is dropped while it is still being written', async () => {
    const { page } = browser();
    const first = page();
    const arrivals = openArrivals('dropped', first.locks);
    const kept = arrivals.keep('p', photo('bytes'), NOTE);
    const dropped = arrivals.drop('p');
    await Promise.all([kept, dropped]);
    first.end();
    expect(await openArrivals('dropped', page().locks).left()).toEqual([]);
  });

  test('come in the order in which they were taken', async () => {
    const { page } = browser();
    let time = 0;
    const first = page();
    const arrivals = openArrivals('order', first.locks, () => ++time);
    for (const id of ['z', 'a', 'm']) await arrivals.keep(id, photo(id), { name: id, journey: 'hue' });
    first.end();
    expect((await openArrivals('order', page().locks).left()).map(({ id }) => id)).toEqual(['z', 'a', 'm']);
  });

  test('a browser without locks takes every photo kept for one left behind', async () => {
    await openArrivals('bare', undefined).keep('p', photo('bytes'), NOTE);
    expect(await openArrivals('bare', undefined).left()).toHaveLength(1);
  });

  test('a device that keeps nothing rejects with a problem that has a name', async () => {
    const broken = openArrivals('full', undefined);
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    try {
      await expect(broken.keep('p', photo('bytes'), NOTE)).rejects.toMatchObject({ kind: 'storage full' });
    } finally {
      IDBObjectStore.prototype.put = put;
    }
    expect(await broken.left()).toEqual([]);
  });
});
