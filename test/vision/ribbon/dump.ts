/**
 * Writes straightened conductors of rendered scenes with their truth, one JSON line each, for models/training/ribbon.
 * Usage: npx tsx test/vision/ribbon/dump.ts FOLDER OUT.jsonl [ASKED]
 * FOLDER holds scenes of models/training/render/build/marked; those to train on have seeds below 2^60. With
 * ASKED, a folder, models/training/ribbon/scores.py runs the network.
 */
import { appendFileSync, writeFileSync } from 'node:fs';
import { type Raster, SAID } from '../../../src/flow';
import { openSegmenter } from '../../../src/inspect/segmenter.node.ts';
import { decodePhoto } from '../../../src/photo/decode.node.ts';
import { findConductors, fineRibbonOf, makeTraceable } from '../../../src/vision';
import { openAsked } from './asked';
import { openScene, sceneIds } from './scenes';
import { labelRibbon } from './truth';

const [folder, out, asked] = process.argv.slice(2);
if (!folder || !out) throw new Error('usage: dump.ts FOLDER OUT.jsonl');
const base64 = (a: ArrayBufferView): string => Buffer.from(a.buffer, a.byteOffset, a.byteLength).toString('base64');
/** Steps of a byte for 1; SAID_STEPS of models/training/ribbon/data.py. */
const STEPS = 15;
/** What readers do not look at. */
const QUALITY = { noiseLevel: 0, blurPx: 0 };
/** What a learned segmentation says of each cell: how likely a conductor is, then the planes of SAID. */
function bytes(wire: Float32Array | null, said: Float32Array | null): Int8Array {
  if (!wire || !said) throw new Error('ribbons to train on need the network');
  const planes = 1 + SAID.length;
  return Int8Array.from({ length: wire.length * planes }, (_, k) => {
    const [cell, plane] = [Math.floor(k / planes), k % planes];
    return Math.round(STEPS * (plane === 0 ? wire[cell]! : said[cell * SAID.length + plane - 1]!));
  });
}
const segmenter = asked ? null : await openSegmenter();
const segment = asked ? await openAsked(asked) : (raster: Raster) => segmenter!.segment(raster);
writeFileSync(out, '');
for (const id of sceneIds(folder)) {
  const scene = await openScene(folder, id);
  const { raster } = await decodePhoto(scene.photo, `${id}.jpg`);
  const traceable = makeTraceable(raster, await segment(raster, id));
  for (const one of findConductors(traceable)) {
    const fine = fineRibbonOf(traceable, one, QUALITY);
    const closer = fine.closer?.();
    if (fine.length === 0 || !closer) continue;
    const { beside } = closer;
    const labels = labelRibbon(scene, fine.centers, fine.widthPx, fine.widths);
    const counts = new Map<number, number>();
    for (const v of labels.instance) counts.set(v, (counts.get(v) ?? 0) + 1);
    const [main, cells] = [...counts].sort((p, q) => q[1] - p[1])[0]!;
    const { length, across, stepPx, widthPx } = fine;
    const line = {
      id,
      layout: scene.layout,
      main,
      purity: cells / labels.instance.length,
      truth: scene.conductors.get(main) ?? null,
      ...{ length, across, stepPx, widthPx },
      rgb: base64(fine.rgb),
      usable: base64(fine.usable),
      said: base64(bytes(fine.wire, closer.said)),
      seen: base64(fine.seen),
      besideRgb: base64(beside.rgb),
      besideUsable: base64(beside.usable),
      besideSaid: base64(bytes(beside.wire, beside.said)),
      inst: base64(labels.instance),
      cov: base64(labels.covering),
      str: base64(labels.stripe),
      prn: base64(labels.print),
    };
    appendFileSync(out, `${JSON.stringify(line)}\n`);
  }
}
segmenter?.dispose();
