import { Problem } from '../flow';
import { withFlashNoted } from './note-flash';

/** Every state the browser's camera can be in, as the user meets it. */
export interface Camera {
  /** To be set as `srcObject` of a muted, inline video element. */
  readonly stream: MediaStream;
  /** True when the running camera offers a torch. */
  readonly hasTorch: boolean;
  /** Resolves to whether the torch is on afterwards. */
  setTorch(on: boolean): Promise<boolean>;
  /**
   * The frame the video element shows now, as JPEG bytes for `decodePhoto`. The preview pauses on that frame so
   * that the user sees what was taken; `retake` starts it again. With the torch on, the photo's EXIF says "flash fired".
   * @throws Problem 'camera lost' when the camera has ended or shows nothing yet.
   */
  freeze(video: HTMLVideoElement): Promise<ArrayBuffer>;
  retake(video: HTMLVideoElement): Promise<void>;
  /** Lets the camera go; its light goes out. Safe to call twice. */
  stop(): void;
}

/** Highest quality of the JPEG made from a frame: at 0.95 chroma is kept well enough not to move a color name. */
const JPEG_QUALITY = 0.95;

/** Longest side asked of the camera. More gains nothing: the working image has 1600. */
const IDEAL_WIDTH = 1920;

function problemOf(error: unknown): Problem {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return new Problem('camera denied', undefined, error);
  if (name === 'NotFoundError' || name === 'OverconstrainedError')
    return new Problem('camera missing', undefined, error);
  return new Problem('camera lost', undefined, error);
}

const offersTorch = (track: MediaStreamTrack): boolean =>
  typeof track.getCapabilities === 'function' && 'torch' in track.getCapabilities();

async function encode(video: HTMLVideoElement): Promise<ArrayBuffer> {
  const canvas = document.createElement('canvas');
  canvas.width = video.videoWidth;
  canvas.height = video.videoHeight;
  const context = canvas.getContext('2d');
  if (!context || canvas.width === 0) throw new Problem('camera lost');
  context.drawImage(video, 0, 0);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', JPEG_QUALITY));
  // Gives the canvas memory back at once on iOS, which counts canvases.
  canvas.width = 0;
  if (!blob) throw new Problem('camera lost');
  return await blob.arrayBuffer();
}

/**
 * Opens the back camera (any camera where there is none), video only. `onLost` is called once when the camera
 * ends by itself: unplugged, or taken by another app.
 * @throws Problem 'camera denied', 'camera missing', 'camera lost'.
 */
export async function openCamera(onLost: (problem: Problem) => void = () => {}): Promise<Camera> {
  if (!navigator.mediaDevices?.getUserMedia) throw new Problem('camera missing');
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: false,
      video: { facingMode: { ideal: 'environment' }, width: { ideal: IDEAL_WIDTH } },
    });
  } catch (error) {
    throw problemOf(error);
  }
  const track = stream.getVideoTracks()[0];
  if (!track) throw new Problem('camera missing');
  let torch = false;
  const lost = (): void => onLost(new Problem('camera lost'));
  track.addEventListener('ended', lost, { once: true });

  return {
    stream,
    hasTorch: offersTorch(track),
    async setTorch(on) {
      if (!offersTorch(track)) return false;
      try {
        await track.applyConstraints({ advanced: [{ torch: on } as MediaTrackConstraintSet] });
        torch = on;
      } catch {
        torch = false;
      }
      return torch;
    },
    async freeze(video) {
      if (track.readyState !== 'live') throw new Problem('camera lost');
      video.pause();
      try {
        const jpeg = await encode(video);
        return torch ? withFlashNoted(jpeg) : jpeg;
      } catch (error) {
        throw error instanceof Problem ? error : new Problem('camera lost', undefined, error);
      }
    },
    async retake(video) {
      if (track.readyState !== 'live') throw new Problem('camera lost');
      await video.play();
    },
    stop() {
      track.removeEventListener('ended', lost);
      for (const each of stream.getTracks()) each.stop();
    },
  };
}
