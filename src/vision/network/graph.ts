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

/** The same scores with the last step left out: a block of pixels lies in the channels of one. */
export interface PackedOutputs {
  /** [1, h/block, w/block, block * block * 10]; channel (row * block + column) * 10 + c is channel c of that pixel. */
  readonly packed: Tensor4D;
  readonly block: number;
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
    const [fullScores, halfScores] = this.#evaluate(input, layers, [full.layer, half.layer], onLayer);
    return { full: fullScores!, half: halfScores! };
  }

  /**
   * As `run`, without the last step, which only moves numbers about: on wasm it took a third of the whole time.
   * The caller disposes both outputs and the input.
   */
  runPacked(input: Tensor4D): PackedOutputs {
    const { full, half, layers } = this.manifest;
    const last = layers[full.layer]!;
    const moves = last.op === 'depthToSpace';
    const rest = moves ? layers.filter((layer) => layer !== last) : layers;
    const [packed, halfScores] = this.#evaluate(input, rest, [moves ? last.in[0]! : last.id, half.layer]);
    return { packed: packed!, block: moves ? last.block : 1, half: halfScores! };
  }

  dispose(): void {
    for (const { kernel, bias } of this.#weights.values()) {
      kernel.dispose();
      bias.dispose();
    }
    this.#weights.clear();
  }

  #evaluate(
    input: Tensor4D,
    layers: readonly Layer[],
    wanted: readonly number[],
    onLayer?: (id: number, value: Tensor) => void,
  ): Tensor4D[] {
    return tidy(() => {
      const values = new Map<number, Tensor4D>();
      for (const layer of layers) {
        const value = this.#compute(layer, values, input);
        onLayer?.(layer.id, value);
        values.set(layer.id, value);
        for (const done of this.#lastReads.get(layer.id) ?? []) {
          if (wanted.includes(done)) continue;
          const dead = values.get(done);
          if (dead !== input) dead?.dispose();
          values.delete(done);
        }
      }
      return wanted.map((id) => values.get(id)!);
    });
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
