import { describe, expect, test } from 'vitest';
import { placeAt } from '../../src/app/screens/shoot/place-at';

/** A wide picture in a tall element: it lies in the middle, with bars above and below. */
const video = {
  videoWidth: 1280,
  videoHeight: 720,
  getBoundingClientRect: () => ({ left: 10, top: 20, width: 320, height: 400 }),
} as unknown as HTMLVideoElement;

describe('the place of a picture under a finger', () => {
  test('shares of the picture, not of its element', () => {
    expect(placeAt(video, 170, 220)).toEqual([0.5, 0.5]);
    // The picture is 320 x 180, from (10, 130) to (330, 310).
    expect(placeAt(video, 10, 130)).toEqual([0, 0]);
    const [x, y] = placeAt(video, 250, 175)!;
    expect(x).toBeCloseTo(0.75, 9);
    expect(y).toBeCloseTo(0.25, 9);
  });
  test('twin: a touch on the bars is no place, nor is any before the camera has a picture', () => {
    expect(placeAt(video, 170, 40)).toBeNull();
    expect(placeAt({ ...video, videoWidth: 0 } as HTMLVideoElement, 170, 220)).toBeNull();
  });
});
