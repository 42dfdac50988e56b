/** Names labelled points of real photographs with crude ribbons. Usage: tsx test/color/measure/real.ts INDEX.json [--wrong] */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import { estimateLight, nameInsulations } from '../../../src/color';
import type { ColorName, Raster } from '../../../src/flow';
import { crudeRibbon } from './crude-ribbon';

interface Index {
  images: { file: string; scene: string; points: { x: number; y: number; color: string; tape?: boolean }[] }[];
}
const indexPath = process.argv[2]!;
const showWrong = process.argv.includes('--wrong');
const showAll = process.argv.includes('--all');
const index = JSON.parse(readFileSync(indexPath, 'utf8')) as Index;

export interface Row {
  photo: string;
  scene: string;
  x: number;
  y: number;
  truth: string;
  best: string;
  confidence: number;
  set: readonly ColorName[];
  covering: string;
  right: boolean;
  covered: boolean;
}
const rows: Row[] = [];
for (const image of index.images) {
  const { data, info } = await sharp(path.join(path.dirname(indexPath), image.file))
    .rotate()
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const raster: Raster = { width: info.width, height: info.height, data: new Uint8ClampedArray(data) };
  const t0 = performance.now();
  const light = estimateLight(raster);
  const t1 = performance.now();
  const ribbons = image.points.map((p) => crudeRibbon(raster, p.x, p.y));
  const t2 = performance.now();
  const { readings, light: after } = nameInsulations(ribbons, light);
  const t3 = performance.now();
  if (showWrong)
    console.log(
      image.file.slice(0, 3),
      `light ${light.mean.map((v) => v.toFixed(2))} +-${light.errorDeg.toFixed(1)} -> ${after.mean.map((v) => v.toFixed(2))} +-${after.errorDeg.toFixed(1)} mixed ${light.mixedLightDeg.toFixed(1)} anchor ${light.anchor.toFixed(2)} ms ${(t1 - t0).toFixed(0)} ${(t3 - t2).toFixed(0)}`,
    );
  image.points.forEach((p, i) => {
    const reading = readings[i]!;
    const { best, confidence, set } = reading.insulation;
    const gy =
      p.color === 'green-yellow' &&
      (best === 'green-yellow' ||
        (best === 'green' && reading.stripe?.name === 'yellow') ||
        (best === 'yellow' && reading.stripe?.name === 'green'));
    const right = reading.covering === 'insulated' && (best === p.color || gy);
    const covered = right || set.includes(p.color as ColorName);
    rows.push({
      photo: image.file.slice(0, 3),
      scene: image.scene,
      x: p.x,
      y: p.y,
      truth: p.color,
      best,
      confidence,
      set,
      covering: reading.covering,
      right,
      covered,
    });
    if (showAll || (showWrong && (!right || reading.stripe || !covered)))
      console.log(
        `  ${right ? 'ok   ' : 'WRONG'} (${p.x},${p.y}) ${p.color}${p.tape ? '*' : ''} -> ${reading.covering === 'bare' ? 'BARE ' : ''}${best} ${confidence.toFixed(2)} {${set.join(',')}} ${covered ? '' : 'UNCOVERED'} stripe ${reading.stripe ? `${reading.stripe.name} ${reading.stripe.layout} ${reading.stripe.confidence.toFixed(2)}` : '-'} w ${ribbons[i]!.widthPx.toFixed(0)} rgb ${reading.body?.rgb.map((v) => v.toFixed(3))} lab ${reading.insulation.lab.map((v) => v.toFixed(0))} gloss ${reading.body?.gloss.toFixed(1)} | ${reading.insulation.candidates.map((c) => `${c.name} ${c.probability.toFixed(2)}`).join(' ')} bare ${(reading.covering === 'bare' ? reading.coveringConfidence : 1 - reading.coveringConfidence).toFixed(2)}`,
      );
  });
}
const pct = (a: number, b: number) => (b ? ((100 * a) / b).toFixed(1) : '-');
function line(label: string, r: Row[]) {
  const sure = r.filter((x) => x.confidence >= 0.9);
  console.log(
    label.padEnd(14),
    String(r.length).padStart(4),
    `named ${pct(r.filter((x) => x.right).length, r.length)}`.padEnd(13),
    `covered ${pct(r.filter((x) => x.covered).length, r.length)}`.padEnd(15),
    `set ${(r.reduce((s, x) => s + x.set.length, 0) / r.length).toFixed(2)}`,
    `sure ${pct(sure.length, r.length)} sure-wrong ${pct(sure.filter((x) => !x.right).length, r.length)}`,
  );
}
for (const key of ['scene', 'truth'] as const)
  for (const value of [...new Set(rows.map((r) => r[key]))].sort())
    line(
      value,
      rows.filter((r) => r[key] === value),
    );
line('all', rows);
let ece = 0;
for (let b = 0; b < 10; b++) {
  const inBin = rows.filter((r) => Math.min(9, Math.floor(r.confidence * 10)) === b);
  if (inBin.length) ece += Math.abs(inBin.reduce((s, r) => s + r.confidence - (r.right ? 1 : 0), 0)) / rows.length;
}
console.log(`ECE ${(100 * ece).toFixed(1)}`);
