import * as v from 'valibot';
import { Problem } from '../../flow';

const count = v.pipe(v.number(), v.integer(), v.minValue(0));
const tensorRef = v.object({ offset: count, shape: v.array(count) });
const inputs = v.array(count);
const convFields = {
  id: count,
  in: inputs,
  stride: v.picklist([1, 2]),
  pad: count,
  relu6: v.boolean(),
  kernel: tensorRef,
  bias: tensorRef,
};
const layer = v.variant('op', [
  v.object({ op: v.literal('input'), id: count, in: inputs }),
  v.object({ op: v.literal('normalize'), id: count, in: inputs, mean: v.number(), spread: v.number() }),
  v.object({ op: v.literal('conv'), ...convFields }),
  v.object({ op: v.literal('depthwise'), ...convFields }),
  v.object({ op: v.literal('add'), id: count, in: inputs }),
  v.object({ op: v.literal('resize'), id: count, in: inputs }),
  v.object({ op: v.literal('depthToSpace'), id: count, in: inputs, block: count }),
]);
const output = v.object({ layer: count, channels: v.array(v.string()) });
const schema = v.object({
  format: v.literal(1),
  version: v.string(),
  sha256: v.string(),
  bytes: count,
  multiple: count,
  full: output,
  half: output,
  calibration: v.object({ scale: v.number(), shift: v.number() }),
  selfTest: v.object({
    height: count,
    width: count,
    tolerance: v.number(),
    answers: v.array(v.object({ output: v.picklist(['full', 'half']), step: count, values: v.array(v.number()) })),
  }),
  layers: v.array(layer),
});

/** One step of the network. `in` names layers by id; a layer's id is its place in the list. */
export type Layer = v.InferOutput<typeof layer>;
/** Where a weight lies in weights.bin: byte offset of float16 values, and their shape. */
export type TensorRef = v.InferOutput<typeof tensorRef>;
/** What `models/training/export.py` writes beside the weights. */
export type NetworkManifest = v.InferOutput<typeof schema>;

/** Checks the manifest's shape; rejects with Problem 'engine failed' rather than computing nonsense later. */
export function readManifest(json: unknown): NetworkManifest {
  const read = v.safeParse(schema, json);
  if (!read.success) throw new Problem('engine failed', undefined, new Error(v.summarize(read.issues)));
  for (const [place, { id, in: from }] of read.output.layers.entries())
    if (id !== place || from.some((i) => i >= place))
      throw new Problem('engine failed', undefined, new Error(`layer ${id} stands at place ${place}`));
  return read.output;
}
