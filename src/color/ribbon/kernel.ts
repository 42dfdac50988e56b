import { KERNEL_CODE } from './kernel-code';
import { type Arithmetic, type Dense, gridSize, type NetWeights, padOf, type Room, SCORES } from './reader-net';

/**
 * The parts used of the WebAssembly JavaScript Interface (W3C): every engine has it, but it does not belong to the
 * language's own types, which are all that this room may use.
 */
declare const WebAssembly: {
  Module: new (code: Uint8Array) => object;
  Instance: new (module: object) => { readonly exports: unknown };
};

/** A step from one grid to another; all but rows, columns and `pad` (rows) in bytes. */
type Step<Rest extends readonly number[] = readonly []> = (
  from: number,
  out: number,
  weight: number,
  bias: number,
  rows: number,
  columns: number,
  pad: number,
  cell: number,
  ...rest: Rest
) => void;

/** What models/training/ribbon/kernel/kernel.ts exports; addresses in bytes. */
interface Kernel {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  halve: Step<readonly [inputCell: number]>;
  depthwise(
    h: number,
    out: number,
    weight: number,
    bias: number,
    rows: number,
    columns: number,
    dilation: number,
    pad: number,
    cell: number,
  ): void;
  mix: Step;
  score: Step;
}

const PAGE = 65536;
const BYTES = 4;
/** Vectors are loaded fastest from addresses that are multiples of this. */
const ALIGN = 16;

/**
 * The arithmetic as WebAssembly with 128-bit vectors, some eight times as fast as plain loops. Null where the machine or a
 * page's policy does not allow it.
 */
export function fastArithmetic(w: NetWeights): Arithmetic | null {
  const kernel = instance();
  if (!kernel) return null;
  const { memory } = kernel;
  const { shape } = w;
  const [pad, cell] = [padOf(shape), shape.width * BYTES];
  let end = ALIGN;
  const reserve = (floats: number): number => {
    const at = end;
    end += Math.ceil((floats * BYTES) / ALIGN) * ALIGN;
    const missing = end - memory.buffer.byteLength;
    if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
    return at;
  };
  const keep = ({ weight, bias }: Dense): [number, number] => {
    const [at, biasAt] = [reserve(weight.length), reserve(bias.length)];
    new Float32Array(memory.buffer, at, weight.length).set(weight);
    new Float32Array(memory.buffer, biasAt, bias.length).set(bias);
    return [at, biasAt];
  };
  const [first, depth, mix, cells] = [keep(w.first), w.depth.map(keep), w.mix.map(keep), keep(w.cells)];
  const ribbons = end;
  let [rows, columns, input, h, next, scores] = [0, 0, 0, 0, 0, 0];

  return {
    open(r, c): Room {
      [rows, columns, end] = [r, c, ribbons];
      const sizes = [(2 * r + 2) * (2 * c + 2) * shape.inputs, gridSize(shape, r, c), r * c * SCORES] as const;
      [input, h, scores] = sizes.map(reserve) as [number, number, number];
      next = reserve(r * c * shape.width);
      const view = (at: number, size: number) => new Float32Array(memory.buffer, at, size).fill(0);
      return { input: view(input, sizes[0]), h: view(h, sizes[1]), scores: view(scores, sizes[2]) };
    },
    halve: () => kernel.halve(input, h, ...first, rows, columns, pad, cell, shape.inputs * BYTES),
    block(block) {
      kernel.depthwise(h, next, ...depth[block]!, rows, columns, shape.dilations[block]!, pad, cell);
      kernel.mix(h, next, ...mix[block]!, rows, columns, pad, cell);
    },
    score: () => kernel.score(h, scores, ...cells, rows, columns, pad, cell),
  };
}

function instance(): Kernel | null {
  const code = new Uint8Array(KERNEL_CODE.length / 2);
  for (let k = 0; k < code.length; k++) code[k] = Number.parseInt(KERNEL_CODE.slice(2 * k, 2 * k + 2), 16);
  try {
    return new WebAssembly.Instance(new WebAssembly.Module(code)).exports as Kernel;
  } catch {
    // No vectors on this machine, or compiling is not allowed: the plain loops read the same, only slower.
    return null;
  }
}
