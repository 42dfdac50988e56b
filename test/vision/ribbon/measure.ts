/**
 * Measures what is read along conductors on rendered scenes that nothing was trained on.
 * Usage: npm run measure:ribbon -- FOLDER [--every N] [--list]
 * FOLDER holds scenes of models/training/render/build/marked with seeds from 2^60 on. The whole way is measured, from a
 * JPEG's bytes to the findings; a conductor counts when most of what was traced is one insulated conductor.
 */
import { performance } from 'node:perf_hooks';
import { deltaE2000, LINEAR_OF_LEVEL, labOf } from '../../../src/color';
import type { NamedConductor, Stretch } from '../../../src/flow';
import { openInspector } from '../../../src/inspect/inspect.node.ts';
import { decodePhoto } from '../../../src/photo/decode.node.ts';
import { openScene, sceneIds } from './scenes';
import { type LabelRibbon, labelRibbon, type TrueStretch, type Truth, truthOf } from './truth';

const words = process.argv.slice(2);
const folder = words.find((w) => !w.startsWith('--'));
if (!folder) throw new Error('usage: npm run measure:ribbon -- FOLDER [--every N] [--list]');
const every = words.includes('--every') ? Number(words[words.indexOf('--every') + 1]) : 1;
const listing = words.includes('--list');

/** Enough of the stretch, and of the stripe, must be one conductor's to ask anything about it. */
const LEAST_PURITY = 0.6;
const LEAST_SHARE = 0.02;
const LEAST_WIDTH_PX = 3;
/** A stripe is told where the findings name one; tape and bare metal from this confidence on. */
const TOLD = 0.5;

interface Tally {
  asked: number;
  found: number;
  told: number;
  right: number;
}
const tallies = new Map<string, Tally>();
const tally = (key: string): Tally => {
  const known = tallies.get(key) ?? { asked: 0, found: 0, told: 0, right: 0 };
  tallies.set(key, known);
  return known;
};
const plain = { conductors: 0, wrong: 0 };
const greenYellow = { conductors: 0, named: 0, wrong: 0, others: 0 };
const names = { stripe: [0, 0], tape: [0, 0] };
const layouts = [0, 0];
/** Stripes named wrongly and surely (above 0.9, name and stripe together). */
let sureWrong = 0;

const overlap = (a: Stretch, b: TrueStretch): number => Math.min(a[1], b.to) - Math.max(a[0], b.from);

/** Told and true stretches are one when they share half of the shorter one. */
function compare(
  key: string,
  told: readonly { stretch: Stretch; name?: string }[],
  real: readonly TrueStretch[],
): void {
  const t = tally(key);
  const taken = new Set<number>();
  for (const one of told) {
    const at = real.findIndex(
      (r, k) =>
        !taken.has(k) && overlap(one.stretch, r) > 0.5 * Math.min(one.stretch[1] - one.stretch[0], r.to - r.from),
    );
    t.told++;
    if (at < 0) continue;
    t.right++;
    taken.add(at);
    if (one.name !== undefined) {
      names.tape[0]!++;
      if (one.name === real[at]!.color) names.tape[1]!++;
    }
  }
  t.asked += real.length;
  t.found += taken.size;
}

/** CIEDE2000 between stripe and body as the photo shows them. */
function contrastOf(
  rgb: Uint8ClampedArray,
  size: number,
  line: NamedConductor,
  labels: LabelRibbon,
  truth: Truth,
): number {
  const sums = [0, 1].map(() => ({ n: 0, rgb: [0, 0, 0] }));
  line.centerline.forEach(([x, y], k) => {
    const row = Math.min(labels.length - 1, Math.floor((k / line.centerline.length) * labels.length));
    for (let j = 2; j < labels.across - 2; j++) {
      const cell = row * labels.across + j;
      if (labels.instance[cell] !== truth.marked.instance || labels.covering[cell] !== 1) continue;
      const a = line.centerline[Math.max(0, k - 1)]!;
      const b = line.centerline[Math.min(line.centerline.length - 1, k + 1)]!;
      const d = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
      const o = (((2 * (j + 0.5)) / labels.across - 1) * line.widthPx) / 2;
      const px = Math.floor(x - ((b[1] - a[1]) / d) * o);
      const py = Math.floor(y + ((b[0] - a[0]) / d) * o);
      if (px < 0 || py < 0 || px >= size || py >= size) continue;
      const sum = sums[labels.stripe[cell]! > 0 ? 1 : 0]!;
      sum.n++;
      for (let c = 0; c < 3; c++) sum.rgb[c]! += LINEAR_OF_LEVEL[rgb[(py * size + px) * 4 + c]!]!;
    }
  });
  const [body, stripe] = sums.map((s) => labOf([s.rgb[0]! / s.n, s.rgb[1]! / s.n, s.rgb[2]! / s.n]));
  return body && stripe && sums.every((s) => s.n > 0) ? deltaE2000(body, stripe) : Number.NaN;
}

const contrastClass = (dE: number): string =>
  Number.isNaN(dE)
    ? 'contrast unknown'
    : dE < 15
      ? 'contrast below 15'
      : dE < 30
        ? 'contrast 15 to 30'
        : 'contrast above 30';

const inspector = await openInspector();
const ids = sceneIds(folder).filter((_, k) => k % every === 0);
let conductors = 0;
let nameMs = 0;
for (const id of ids) {
  const scene = await openScene(folder, id);
  const began = performance.now();
  const { findings } = await inspector.inspect(scene.photo, `${id}.jpg`);
  nameMs += findings.stages.name ?? performance.now() - began;
  const { raster } = await decodePhoto(scene.photo, `${id}.jpg`);
  for (const c of findings.conductors) {
    conductors++;
    const labels = labelRibbon(scene, c.centerline, c.widthPx);
    const truth = truthOf(scene, labels, c.widthPx);
    const told = c.stripe;
    if (!truth || truth.purity < LEAST_PURITY) {
      tally('stripes told where no one insulated conductor was traced').told += told ? 1 : 0;
      continue;
    }
    compare(
      'tape',
      c.tape.filter((t) => t.confidence >= TOLD).map((t) => ({ stretch: t.stretch ?? [0, 1], name: t.name })),
      truth.tapes,
    );
    compare(
      'bare',
      (c.along?.bare ?? []).filter((b) => b.confidence >= TOLD),
      truth.bare,
    );
    const gnye = c.insulation.best === 'green-yellow';
    if (truth.marked.color === 'green-yellow') {
      greenYellow.conductors++;
      if (gnye || (told && ['green', 'yellow'].includes(c.insulation.best) && ['green', 'yellow'].includes(told.name)))
        greenYellow.named++;
      continue;
    }
    greenYellow.others++;
    if (gnye) greenYellow.wrong++;
    const { stripe } = truth;
    if (!stripe) {
      plain.conductors++;
      if (told) {
        plain.wrong++;
        if (listing)
          console.log('wrong stripe', id, c.id, truth.marked.color, c.widthPx, told, 'tapes', truth.tapes.length);
      }
    }
    const visible = stripe !== null && stripe.share >= LEAST_SHARE && stripe.widthPx >= LEAST_WIDTH_PX;
    const keys = ['stripe'];
    if (stripe)
      keys.push(
        `stripe ${stripe.layout}`,
        `stripe ${contrastClass(contrastOf(raster.data, raster.width, c, labels, truth))}`,
      );
    for (const key of keys) {
      const t = tally(key);
      if (told) t.told++;
      if (told && stripe && stripe.share > 0) t.right++;
      if (visible) t.asked++;
      if (visible && told) t.found++;
    }
    if (visible && !told && listing)
      console.log('missed', id, c.id, truth.marked.color, stripe, c.widthPx, c.stripe, c.insulation.best);
    if (visible && told) {
      names.stripe[0]!++;
      if (told.name === stripe.name) names.stripe[1]!++;
      else if (told.confidence > 0.9) sureWrong++;
      layouts[0]!++;
      if (told.layout === stripe.layout) layouts[1]!++;
    }
  }
}
inspector.dispose();

const pct = (a: number, b: number): string => (b ? `${((100 * a) / b).toFixed(1)} %` : '-');
console.log(
  `${ids.length} scenes, ${conductors} conductors found; naming and reading along ${(nameMs / conductors).toFixed(1)} ms each\n`,
);
console.log('| what | asked for | recall | told | precision |\n| --- | --- | --- | --- | --- |');
for (const [key, t] of [...tallies].sort())
  console.log(`| ${key} | ${t.asked} | ${pct(t.found, t.asked)} | ${t.told} | ${pct(t.right, t.told)} |`);
console.log(
  `\nwrong stripes per 100 plain conductors: ${((100 * plain.wrong) / plain.conductors).toFixed(2)} (${plain.wrong} of ${plain.conductors})`,
);
console.log(
  `stripe color right ${pct(names.stripe[1]!, names.stripe[0]!)} (${sureWrong} wrong and sure), layout right ${pct(layouts[1]!, layouts[0]!)}; tape color right ${pct(names.tape[1]!, names.tape[0]!)}`,
);
console.log(
  `green-yellow named ${greenYellow.named} of ${greenYellow.conductors}; others called so ${greenYellow.wrong} of ${greenYellow.others}`,
);
