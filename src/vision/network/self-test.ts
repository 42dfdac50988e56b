import { type Tensor4D, tensor4d } from '@tensorflow/tfjs-core';
import type { Graph } from './graph';

/** The test picture of `models/training/export.py`: colored waves and steps from whole numbers. The caller disposes it. */
export function testPattern(height: number, width: number): Tensor4D {
  const data = new Float32Array(height * width * 3);
  let at = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++) {
        const wave = ((x * x * 3 + y * y * 5 + x * y * 2 + c * 37) % 101) / 100;
        const step = ((Math.floor(x / 8) + Math.floor(y / 8) * 2 + c) % 5) / 4;
        data[at++] = wave * 0.5 + step * 0.5;
      }
  return tensor4d(data, [1, height, width, 3]);
}

/**
 * Does the backend in use compute the stored answer? Backends have returned nonsense without an error, so this is
 * asked at every load. Resolves with the largest difference from the stored scores; NaN counts as infinite.
 */
export async function selfTestError(graph: Graph): Promise<number> {
  const { height, width, answers } = graph.manifest.selfTest;
  const input = testPattern(height, width);
  const outputs = graph.run(input);
  try {
    let worst = 0;
    for (const { output, step, values } of answers) {
      const computed = await outputs[output].data();
      for (const [k, value] of values.entries()) {
        const off = Math.abs((computed[k * step] ?? Number.NaN) - value);
        worst = Number.isFinite(off) ? Math.max(worst, off) : Number.POSITIVE_INFINITY;
      }
    }
    return worst;
  } finally {
    input.dispose();
    outputs.full.dispose();
    outputs.half.dispose();
  }
}
