/**
 * Measures naming on simulated photos (stdin: lines of models/palette/make_readings.py), and with --write FILE makes
 * the calibration from them. Usage: python3 models/palette/make_readings.py | npx tsx test/color/measure/simulated.ts
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { observe, priorModes, STATISTICS } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import { angleDeg } from '../../../src/color/light/statistics';
import { conformalSet, ranked } from '../../../src/color/naming/calibrate';
import { CALIBRATION } from '../../../src/color/naming/calibration-data';
import { inferJointly } from '../../../src/color/naming/joint';
import { bodyEvidence } from '../../../src/color/naming/name-insulations';
import { opinionOf } from '../../../src/color/naming/opinion';
import type { Body } from '../../../src/color/ribbon/body';
import { COLOR_NAMES, type ColorName } from '../../../src/flow';

interface Photo {
  lamp: string;
  cast: [number, number];
  seen: [number, number];
  anchor: number;
  bodies: { name: ColorName; rgb: [number, number, number]; width: number; blur: number; noise: number }[];
}

const photos = readFileSync(0, 'utf8')
  .split('\n')
  .filter((l) => l.trim())
  .map((l) => JSON.parse(l) as Photo);

interface Case {
  truth: ColorName;
  ladder: readonly Float64Array[];
}
const cases: Case[] = [];
const lightErrors: { before: number; after: number; neutral: number }[] = [];
const started = performance.now();
for (const photo of photos) {
  const modes = observe(priorModes(), photo.seen, STATISTICS);
  const light = summarize(modes, { basis: 'scene statistics', anchor: photo.anchor, mixedLightDeg: 0 });
  const bodies = photo.bodies.map((b): Body => {
    const top = Math.max(...b.rgb);
    return {
      rgb: b.rgb,
      scatter: [0.0004, 0, 0.0004],
      count: 60,
      usable: top > 0.95 ? 0.2 : 1,
      agreement: 1,
      hues: null,
      gloss: 0.5,
      highlightTint: 0.7,
      widthPx: b.width,
      blurPx: b.blur,
      noise: b.noise,
    };
  });
  const result = inferJointly({ bodies, evidence: bodies.map(bodyEvidence), known: [], modes, anchor: light.anchor });
  result.ladders.forEach((ladder, i) => {
    cases.push({ truth: photo.bodies[i]!.name, ladder });
  });
  const at = (rgb: readonly [number, number, number]) => [Math.log(rgb[0]), Math.log(rgb[2])] as const;
  lightErrors.push({
    before: angleDeg(at(light.mean), photo.cast),
    after: angleDeg(result.light.mean, photo.cast),
    neutral: angleDeg([0, 0], photo.cast),
  });
}
const elapsed = performance.now() - started;

function meanAndWorst(values: number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = (v: number[]) => v.reduce((s, x) => s + x, 0) / v.length;
  return `mean ${mean(sorted).toFixed(2)} worst quarter ${mean(sorted.slice(Math.floor(sorted.length * 0.75))).toFixed(2)}`;
}

function nll(set: readonly Case[], temperature: number): number {
  return (
    set.reduce((sum, c) => sum - Math.log(Math.max(1e-9, opinionOf(c.ladder, temperature).names[c.truth])), 0) /
    set.length
  );
}

/**
 * Share of right ones among readings with confidence 0.9 and more. The simulation is harder than photographs are
 * (78 % named against 95 %): on those the same temperature leaves none of the sure ones wrong.
 */
const MUST_BE_RIGHT = 0.975;
function sureRight(set: readonly Case[], temperature: number): number {
  let sure = 0;
  let right = 0;
  for (const c of set) {
    const best = ranked(opinionOf(c.ladder, temperature).names)[0]!;
    if (best.probability < 0.9) continue;
    sure++;
    if (best.name === c.truth) right++;
  }
  return sure === 0 ? 1 : right / sure;
}

if (process.argv.includes('--write')) {
  const file = process.argv[process.argv.indexOf('--write') + 1]!;
  // The likeliest temperature, then as much softer as it takes for the sure to be right: a confident wrong answer is
  // the worst one.
  let temperature = 1;
  for (let t = 0.5; t <= 2; t += 0.05) if (nll(cases, t) < nll(cases, temperature)) temperature = t;
  while (temperature < 2 && sureRight(cases, temperature) < MUST_BE_RIGHT) temperature += 0.05;
  temperature = Math.round(temperature * 100) / 100;
  const threshold = Object.fromEntries(
    COLOR_NAMES.map((name) => {
      const own = cases
        .filter((c) => c.truth === name)
        .map((c) => opinionOf(c.ladder, temperature).names[name])
        .sort((a, b) => a - b);
      // Small-sample correction: the floor(0.05 (n + 1))-th smallest.
      const k = Math.floor(0.05 * (own.length + 1));
      return [name, k < 1 ? 0 : Number(own[k - 1]!.toFixed(4))];
    }),
  );
  // Not simulated as a case of its own: assumed, and low, because a protective conductor must not fall out of a set.
  threshold['green-yellow'] = 0.1;
  writeFileSync(
    file,
    `import type { ColorName } from '../../flow';\n\n/** Made by \`npm run calibrate:color\` from ${cases.length} simulated readings; do not edit. */\nexport const CALIBRATION: {\n  /** Probabilities are raised to 1 / temperature. */\n  readonly temperature: number;\n  /** A name belongs to the set when its probability is at least this. */\n  readonly threshold: Readonly<Record<ColorName, number>>;\n} = ${JSON.stringify({ temperature, threshold }, null, 2)};\n`,
  );
  console.log('temperature', temperature, threshold);
} else {
  const rows = cases.map((c) => {
    const opinion = opinionOf(c.ladder, CALIBRATION.temperature);
    const all = ranked(opinion.names);
    return { truth: c.truth, best: all[0]!.name, p: all[0]!.probability, set: conformalSet(all), bare: opinion.bare };
  });
  const pct = (a: number, b: number) => (b ? ((100 * a) / b).toFixed(1) : '-').padStart(5);
  const line = (label: string, r: typeof rows) => {
    const sure = r.filter((x) => x.p >= 0.9);
    const wrong = r.filter((x) => x.best !== x.truth);
    const confused = [...new Set(wrong.map((x) => x.best))]
      .map((n) => [n, wrong.filter((x) => x.best === n).length] as const)
      .sort((a, b) => b[1] - a[1])
      .slice(0, 4)
      .map(([n, k]) => `${n} ${((100 * k) / r.length).toFixed(1)}`);
    console.log(
      label.padEnd(12),
      String(r.length).padStart(6),
      `named ${pct(r.length - wrong.length, r.length)} covered ${pct(r.filter((x) => x.set.includes(x.truth)).length, r.length)} set ${(r.reduce((s, x) => s + x.set.length, 0) / r.length).toFixed(2)} sure ${pct(sure.length, r.length)} sure-wrong ${pct(sure.filter((x) => x.best !== x.truth).length, r.length)}`,
      confused.join(', '),
    );
  };
  for (const name of COLOR_NAMES) {
    const own = rows.filter((r) => r.truth === name);
    if (own.length) line(name, own);
  }
  line('all', rows);
  let ece = 0;
  for (let b = 0; b < 10; b++) {
    const bin = rows.filter((r) => Math.min(9, Math.floor(r.p * 10)) === b);
    if (!bin.length) continue;
    const p = bin.reduce((s, r) => s + r.p, 0) / bin.length;
    const right = bin.filter((r) => r.best === r.truth).length / bin.length;
    ece += (bin.length / rows.length) * Math.abs(p - right);
    console.log(
      `  said ${(100 * p).toFixed(1).padStart(5)}  right ${(100 * right).toFixed(1).padStart(5)}  ${'#'.repeat(Math.round(40 * right))} ${bin.length}`,
    );
  }
  console.log(`ECE ${(100 * ece).toFixed(2)} %  ms per conductor ${(elapsed / cases.length).toFixed(2)}`);
  console.log(
    `light error, degrees: as estimated ${meanAndWorst(lightErrors.map((e) => e.before))}; after naming ${meanAndWorst(lightErrors.map((e) => e.after))}; taken as neutral ${meanAndWorst(lightErrors.map((e) => e.neutral))}`,
  );
}
