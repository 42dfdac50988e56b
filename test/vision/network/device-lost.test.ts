import { describe, expect, it } from 'vitest';
import { deviceLost } from '../../../src/vision/network/device-lost';

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
