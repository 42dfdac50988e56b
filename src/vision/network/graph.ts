import {
  add,
  depthToSpace,
  div,
  fused,
  image,
  sub,
  type Tensor,
  type Tensor1D,
  type Tensor4D,
  tensor,
  tidy,
} from '@tensorflow/tfjs-core';
import { Problem } from '../../flow';
import { halfToFloat } from './half-float';
import type { Layer, NetworkManifest, TensorRef } from './manifest';

export interface GraphOutputs {
  /** [1, h, w, 10], channels as the manifest names them. */
  readonly full: Tensor4D;
  /** [1, h/2, w/2, 15]. */
  readonly half: Tensor4D;
}

/**
 * The network on whatever tfjs backend is set. Weights live on the device from construction to `dispose`.
 * Heights and widths of the input must be multiples of `manifest.multiple`.
 */
export class Graph {
  readonly manifest: NetworkManifest;
  readonly #weights = new Map<number, { kernel: Tensor4D; bias: Tensor1D }>();
  /** Layers whose last reader is the key. */
  readonly #lastReads = new Map<number, number[]>();

  /** @param bytes weights.bin; its hash is the loader's business */
  constructor(manifest: NetworkManifest, bytes: ArrayBuffer) {
    if (bytes.byteLength !== manifest.bytes)
      throw new Problem(
        'engine failed',
        undefined,
        new Error(`weights: ${bytes.byteLength} of ${manifest.bytes} bytes`),
      );
    this.manifest = manifest;
    for (const layer of manifest.layers)
      if (layer.op === 'conv' || layer.op === 'depthwise')
        this.#weights.set(layer.id, {
          kernel: read(bytes, layer.kernel) as Tensor4D,
          bias: read(bytes, layer.bias) as Tensor1D,
        });
    const last = new Map<number, number>();
    for (const layer of manifest.layers) for (const i of layer.in) last.set(i, layer.id);
    for (const [layer, reader] of last) this.#lastReads.set(reader, [...(this.#lastReads.get(reader) ?? []), layer]);
  }

  /**
   * Runs the network. The caller disposes both outputs and the input.
   * @param input [1, h, w, 3], sRGB-encoded, 0 to 1
   * @param onLayer looks at every layer's value while it lives (tests)
   */
  run(input: Tensor4D, onLayer?: (id: number, value: Tensor) => void): GraphOutputs {
    const { full, half, layers } = this.manifest;
    const [fullScores, halfScores] = tidy(() => {
      const values = new Map<number, Tensor4D>();
      for (const layer of layers) {
        const value = this.#compute(layer, values, input);
        onLayer?.(layer.id, value);
        values.set(layer.id, value);
        for (const done of this.#lastReads.get(layer.id) ?? []) {
          const dead = values.get(done);
          if (dead !== input) dead?.dispose();
          values.delete(done);
        }
      }
      return [values.get(full.layer)!, values.get(half.layer)!];
    });
    return { full: fullScores!, half: halfScores! };
  }

  dispose(): void {
    for (const { kernel, bias } of this.#weights.values()) {
      kernel.dispose();
      bias.dispose();
    }
    this.#weights.clear();
  }

  #compute(layer: Layer, values: ReadonlyMap<number, Tensor4D>, input: Tensor4D): Tensor4D {
    const x = values.get(layer.in[0] ?? -1) ?? input;
    switch (layer.op) {
      case 'input':
        return input;
      case 'normalize':
        return div(sub(x, layer.mean), layer.spread);
      case 'conv':
      case 'depthwise': {
        const { kernel, bias } = this.#weights.get(layer.id)!;
        // The padding is a number on purpose: 'same' pads stride-2 layers on another side than PyTorch does.
        const options = {
          x,
          filter: kernel,
          strides: layer.stride,
          pad: layer.pad,
          dimRoundingMode: 'floor' as const,
          bias,
          activation: layer.relu6 ? ('relu6' as const) : ('linear' as const),
        };
        return layer.op === 'conv' ? fused.conv2d(options) : fused.depthwiseConv2d(options);
      }
      case 'add':
        return add(x, values.get(layer.in[1]!)!);
      case 'resize': {
        const like = values.get(layer.in[1]!)!;
        // Half-pixel centers: equals PyTorch's align_corners=False.
        return image.resizeBilinear(x, [like.shape[1], like.shape[2]], false, true);
      }
      case 'depthToSpace':
        return depthToSpace(x, layer.block);
    }
  }
}

function read(bytes: ArrayBuffer, ref: TensorRef): Tensor {
  const length = ref.shape.reduce((product, n) => product * n, 1);
  return tensor(halfToFloat(new Uint8Array(bytes, ref.offset, length * 2)), ref.shape);
}
