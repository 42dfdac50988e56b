import { backend } from '@tensorflow/tfjs-core';

/**
 * Has the graphics processor been lost? tfjs then goes on and reads zeros, which look like a photo without
 * conductors. False on backends that have none.
 */
export function deviceLost(device: unknown = backend()): boolean {
  const gl = (device as { readonly gpgpu?: { readonly gl?: Pick<WebGLRenderingContext, 'isContextLost'> } }).gpgpu?.gl;
  return gl?.isContextLost() ?? false;
}
