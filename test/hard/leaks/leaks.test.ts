import { zeros } from '@tensorflow/tfjs-core';
import { expect, it } from 'vitest';
import { countLeaks } from './count';

it.each([
  ['network', false],
  ['classical', true],
])(
  'nothing is held after five photos and five cancelled ones: %s',
  async (_, classical) => {
    const { before, afterRead, afterCancelled, cancelled } = await countLeaks(5, { classical });
    expect(afterRead).toEqual(before);
    expect(afterCancelled).toEqual(before);
    expect(cancelled).toBe(5);
  },
  180_000,
);

it('would notice one tensor too many', async () => {
  const { before } = await countLeaks(0);
  const kept = zeros([8]);
  const { before: later } = await countLeaks(0);
  expect(later.tensors).toBe(before.tensors + 1);
  kept.dispose();
}, 60_000);
