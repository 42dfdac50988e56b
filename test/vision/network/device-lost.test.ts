import { describe, expect, it } from 'vitest';
import { deviceLost, unlessLost } from '../../../src/vision/network/device-lost';

const device = (lost: boolean) => ({ gpgpu: { gl: { isContextLost: () => lost } } });

describe('a lost graphics processor', () => {
  it('is seen on a device that has one', () => {
    expect(deviceLost(device(true))).toBe(true);
    expect(deviceLost(device(false))).toBe(false);
  });
  it('is no matter where there is none', () => {
    expect(deviceLost({})).toBe(false);
  });
});

describe('a look that waits for the graphics processor', () => {
  const never = new Promise<number>(() => undefined);

  it('ends as a fault when that is lost, though nothing ever comes back', async () => {
    let lost = false;
    const look = unlessLost(never, () => lost);
    lost = true;
    await expect(look).rejects.toMatchObject({ kind: 'engine failed' });
  });

  it('twin: gives what comes back, and its own fault, while it is there', async () => {
    expect(await unlessLost(Promise.resolve(7), () => false)).toBe(7);
    await expect(unlessLost(Promise.reject(new Error('other')), () => false)).rejects.toThrow('other');
  });
});
