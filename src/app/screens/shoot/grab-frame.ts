import type { CameraFrame } from '../../../inspect';
import { workingSize } from '../../../photo';

/** Longest side of the copy that is looked at for conductors: about what the network is shown of a frame. */
const WHOLE_SIDE = 336;
/** Sides of the piece in which blur and grain are measured, at the size at which a photo is read. */
const DETAIL = { width: 480, height: 360 };

/** A place in the camera picture, as shares of its width and height: 0 to 1. */
export type Place = readonly [x: number, y: number];

export const MIDDLE: Place = [0.5, 0.5];

/**
 * The frame that a video shows now, for `InspectClient.glance`; with `aim`, its detail lies round that place. Undefined
 * while it shows none. The bitmaps are the caller's to hand on or to close.
 */
export async function grabFrame(video: HTMLVideoElement, aim: Place | null): Promise<CameraFrame | undefined> {
  const { videoWidth: width, videoHeight: height } = video;
  if (width === 0 || height === 0) return undefined;
  const small = workingSize(width, height, WHOLE_SIDE);
  const photo = workingSize(width, height);
  const detail = { width: Math.min(DETAIL.width, photo.width), height: Math.min(DETAIL.height, photo.height) };
  const cut = { width: Math.round(detail.width / photo.scale), height: Math.round(detail.height / photo.scale) };
  const whole = await createImageBitmap(video, {
    resizeWidth: small.width,
    resizeHeight: small.height,
    resizeQuality: 'medium',
  });
  try {
    const [x, y] = aim ?? MIDDLE;
    const left = startOf(x * width, cut.width, width);
    const top = startOf(y * height, cut.height, height);
    const middle = await createImageBitmap(video, left, top, cut.width, cut.height, {
      resizeWidth: detail.width,
      resizeHeight: detail.height,
      resizeQuality: 'high',
    });
    if (!aim) return { whole, detail: middle, width, height };
    const inWhole = [x * small.width, y * small.height] as const;
    const inDetail = [(x * width - left) * photo.scale, (y * height - top) * photo.scale] as const;
    return { whole, detail: middle, width, height, aim: { inWhole, inDetail } };
  } catch (error) {
    whole.close();
    throw error;
  }
}

/** Where a piece of a length begins that has a place in its middle, as far as it stays inside. */
const startOf = (middle: number, length: number, whole: number): number =>
  Math.floor(Math.min(whole - length, Math.max(0, middle - length / 2)));
