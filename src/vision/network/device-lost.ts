import { backend } from '@tensorflow/tfjs-core';
import { Problem } from '../../flow';

/**
 * Has the graphics processor been lost? tfjs then goes on and reads zeros, which look like a photo without
 * conductors. False on backends that have none.
 */
export function deviceLost(device: unknown = backend()): boolean {
  const gl = (device as { readonly gpgpu?: { readonly gl?: Pick<WebGLRenderingContext, 'isContextLost'> } }).gpgpu?.gl;
  return gl?.isContextLost() ?? false;
}

/** How often a running look asks whether its graphics processor is still there, milliseconds. */
const ASK_MS = 250;

/**
 * What the graphics processor is asked to give back, or Problem 'engine failed' as soon as it is lost: a lost one never
 * signals that its work is done, and reading from it would wait for ever.
 */
export async function unlessLost<T>(reading: Promise<T>, device: () => boolean = deviceLost): Promise<T> {
  let timer: ReturnType<typeof setInterval> | undefined;
  const gone = new Promise<never>((_, reject) => {
    const ask = (): void => {
      if (device()) reject(new Problem('engine failed', undefined, new Error('the graphics processor was lost')));
    };
    timer = setInterval(ask, ASK_MS);
  });
  try {
    return await Promise.race([reading, gone]);
  } finally {
    clearInterval(timer);
  }
}
