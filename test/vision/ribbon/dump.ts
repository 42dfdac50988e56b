/**
 * Writes straightened conductors of rendered scenes with their truth, one JSON line each, for models/training/ribbon.
 * Usage: npx tsx test/vision/ribbon/dump.ts FOLDER OUT.jsonl
 * FOLDER holds scenes of models/training/render/build/marked; those to train on have seeds below 2^60.
 */
import { appendFileSync, writeFileSync } from 'node:fs';
import { estimateLight } from '../../../src/color';
import { openSegmenter } from '../../../src/inspect/segmenter.node.ts';
import { captureVerdict } from '../../../src/photo';
import { decodePhoto } from '../../../src/photo/decode.node.ts';
import { findConductors, fineRibbonOf, makeTraceable } from '../../../src/vision';
import { openScene, sceneIds } from './scenes';
import { labelRibbon } from './truth';

const [folder, out] = process.argv.slice(2);
if (!folder || !out) throw new Error('usage: dump.ts FOLDER OUT.jsonl');
const base64 = (a: ArrayBufferView): string => Buffer.from(a.buffer, a.byteOffset, a.byteLength).toString('base64');
const segmenter = await openSegmenter();
writeFileSync(out, '');
for (const id of sceneIds(folder)) {
  const scene = await openScene(folder, id);
  const { raster, facts } = await decodePhoto(scene.photo, `${id}.jpg`);
  const { measures } = captureVerdict(raster, facts, estimateLight(raster));
  const traceable = makeTraceable(raster, await segmenter.segment(raster));
  for (const one of findConductors(traceable)) {
    const fine = fineRibbonOf(traceable, one, measures);
    const { beside } = fine;
    if (fine.length === 0 || !fine.wire || !beside?.wire) continue;
    const labels = labelRibbon(scene, fine.centers, fine.widthPx, fine.length);
    const counts = new Map<number, number>();
    for (const v of labels.instance) counts.set(v, (counts.get(v) ?? 0) + 1);
    const [main, cells] = [...counts].sort((p, q) => q[1] - p[1])[0]!;
    const { length, across, stepPx, widthPx, noise, blurPx } = fine;
    const line = {
      id,
      layout: scene.layout,
      main,
      purity: cells / labels.instance.length,
      truth: scene.conductors.get(main) ?? null,
      ...{ length, across, stepPx, widthPx, noise, blurPx },
      rgb: base64(fine.rgb),
      usable: base64(fine.usable),
      wire: base64(fine.wire),
      seen: base64(fine.seen),
      besideRgb: base64(beside.rgb),
      besideUsable: base64(beside.usable),
      besideWire: base64(beside.wire),
      inst: base64(labels.instance),
      cov: base64(labels.covering),
      str: base64(labels.stripe),
      prn: base64(labels.print),
    };
    appendFileSync(out, `${JSON.stringify(line)}\n`);
  }
}
segmenter.dispose();
