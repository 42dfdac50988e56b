import { openCamera } from '../../src/photo/camera.browser';
import type { PhotoAnswer } from './photo-worker';

/** Runs the browser's decoder in a worker, as the product does, and the camera in the page. */
async function decode(base64: string, maxSide?: number): Promise<PhotoAnswer> {
  const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)).buffer;
  const worker = new Worker(new URL('./photo-worker.ts', import.meta.url), { type: 'module' });
  try {
    return await new Promise((done, fail) => {
      worker.onmessage = (event: MessageEvent<PhotoAnswer>) => done(event.data);
      worker.onerror = (event) => fail(new Error(event.message));
      worker.postMessage({ bytes, maxSide }, [bytes]);
    });
  } finally {
    worker.terminate();
  }
}

async function camera(): Promise<{
  head: number[];
  torch: boolean;
  torchSet: boolean;
  paused: boolean;
  ended: string;
}> {
  const video = document.querySelector('video') as HTMLVideoElement;
  const opened = await openCamera();
  video.srcObject = opened.stream;
  await video.play();
  const bytes = new Uint8Array(await opened.freeze(video));
  const paused = video.paused;
  await opened.retake(video);
  const torchSet = await opened.setTorch(true);
  opened.stop();
  return {
    head: [...bytes.subarray(0, 3)],
    torch: opened.hasTorch,
    torchSet,
    paused,
    ended: opened.stream.getVideoTracks()[0]?.readyState ?? 'none',
  };
}

async function cameraProblem(): Promise<string> {
  try {
    (await openCamera()).stop();
    return 'no problem';
  } catch (error) {
    return (error as { kind?: string }).kind ?? String(error);
  }
}

Object.assign(globalThis, { harness: { decode, camera, cameraProblem } });
export type Harness = { decode: typeof decode; camera: typeof camera; cameraProblem: typeof cameraProblem };
