import type { CameraFrame } from '../../../inspect';
import { workingSize } from '../../../photo';

/** Longest side of the copy that is looked at for conductors: about what the network is shown of a frame. */
const WHOLE_SIDE = 336;
/** Sides of the piece in which blur and grain are measured, at the size at which a photo is read. */
const DETAIL = { width: 480, height: 360 };

/**
 * The frame that a video shows now, for `InspectClient.glance`. Undefined while it shows none.
 * The bitmaps are the caller's to hand on or to close.
 */
export async function grabFrame(video: HTMLVideoElement): Promise<CameraFrame | undefined> {
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
    const left = Math.floor((width - cut.width) / 2);
    const top = Math.floor((height - cut.height) / 2);
    const middle = await createImageBitmap(video, left, top, cut.width, cut.height, {
      resizeWidth: detail.width,
      resizeHeight: detail.height,
      resizeQuality: 'high',
    });
    return { whole, detail: middle, width, height };
  } catch (error) {
    whole.close();
    throw error;
  }
}
