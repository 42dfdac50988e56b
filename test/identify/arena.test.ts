import { expect, it } from 'vitest';
import { resetArena, zeros } from '../../src/identify/infer/arena';

it('what was handed out stays as it is when more is asked for than there was room', () => {
  resetArena();
  const first = zeros(8).fill(7);
  const large = zeros(5_000_000);
  const last = zeros(8);
  last.fill(3);
  expect([...first]).toEqual(Array(8).fill(7));
  expect(large).toHaveLength(5_000_000);
  expect(large.every((v) => v === 0)).toBe(true);
});

it('after a reset the same room is zeros again', () => {
  resetArena();
  zeros(16).fill(5);
  resetArena();
  expect([...zeros(16)]).toEqual(Array(16).fill(0));
});
