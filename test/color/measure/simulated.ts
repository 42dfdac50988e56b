/**
 * Measures naming on simulated photos (stdin: lines of models/palette/make_readings.py).
 * --write FILE makes the calibration from them instead; --svg FILE also draws the reliability diagram;
 * --paper: white paper was held beside the conductors and tapped.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { CALIBRATION } from '../../../src/color/naming/calibration-data';
import { QUALITIES } from '../../../src/color/naming/quality';
import { COLOR_NAMES, type ColorName } from '../../../src/flow';
import { type Case, type LightError, readCases } from './cases';
import { reliabilitySvg } from './diagram';
import { fitCalibration } from './fit';
import { binsOf, eceOf, type Row, rowOf } from './rows';

const after = (flag: string): string | undefined =>
  process.argv.includes(flag) ? process.argv[process.argv.indexOf(flag) + 1] : undefined;

const { cases, light, msPerConductor } = readCases(readFileSync(0, 'utf8'), process.argv.includes('--paper'));
const file = after('--write');
if (file) write(file);
else report();

function write(to: string): void {
  const fitted = fitCalibration(cases);
  const head = [
    "import type { ColorName } from '../../flow';",
    "import type { Quality } from './quality';",
    '',
    `/** Made by \`npm run calibrate:color\` from ${cases.length} simulated readings; do not edit. */`,
    'export const CALIBRATION: {',
    '  /** Probabilities are raised to 1 / temperature. */',
    '  readonly temperature: number;',
    '  /** What the best name was said with and how often it was right then, rising. */',
    '  readonly reliability: readonly (readonly [said: number, right: number])[];',
    '  /** A name belongs to the set when its probability is at least this. */',
    '  readonly threshold: Readonly<Record<Quality, Readonly<Record<ColorName, number>>>>;',
  ];
  writeFileSync(to, `${head.join('\n')}\n} = ${JSON.stringify(fitted, null, 2)};\n`);
  console.log(fitted);
}

function percent(part: number, whole: number): string {
  return (whole > 0 ? ((100 * part) / whole).toFixed(1) : '-').padStart(5);
}

/** Standard error of the share covered: the readings of a photo share its light, so that photos are what is drawn. */
function errorOf(rows: readonly Row[]): number {
  const held = (r: Row): number => (r.set.includes(r.truth) ? 1 : 0);
  const share = rows.reduce((sum, r) => sum + held(r), 0) / rows.length;
  const off = new Map<number, number>();
  for (const r of rows) off.set(r.photo, (off.get(r.photo) ?? 0) + held(r) - share);
  return Math.hypot(...off.values()) / rows.length;
}

function tell(label: string, rows: readonly Row[]): void {
  const n = rows.length;
  const sure = rows.filter((r) => r.p >= 0.9);
  const wrong = rows.filter((r) => r.best !== r.truth);
  const covered = rows.filter((r) => r.set.includes(r.truth)).length;
  const size = rows.reduce((sum, r) => sum + r.set.length, 0) / n;
  const error = 100 * errorOf(rows);
  console.log(
    `${label.padEnd(12)} ${String(n).padStart(6)} named ${percent(n - wrong.length, n)} covered ${percent(covered, n)} (+-${error.toFixed(1)}) set ${size.toFixed(2)} sure ${percent(sure.length, n)} sure and wrong ${percent(sure.filter((r) => r.best !== r.truth).length, n)}`,
  );
}

/** Rows: what it is; columns: what it was named, in percent. */
function tellConfusions(rows: readonly Row[], names: readonly ColorName[]): void {
  const counts = names.map((truth) => {
    const own = rows.filter((r) => r.truth === truth);
    const share = (name: ColorName): string => percent(own.filter((r) => r.best === name).length, own.length).trim();
    const others = own.filter((r) => !names.includes(r.best)).length;
    return [
      truth,
      { ...Object.fromEntries(names.map((n) => [n, share(n)])), other: percent(others, own.length).trim() },
    ];
  });
  console.table(Object.fromEntries(counts));
}

/** Calibration error where the calibration never saw the lamp: fitted on the odd photos under all other lamps. */
function tellUnseenLamps(all: readonly Case[]): void {
  const rows = [...new Set(all.map((c) => c.lamp))].sort().flatMap((lamp) => {
    const fitted = fitCalibration(all.filter((c) => c.lamp !== lamp && c.photo % 2 === 1));
    const seen = all.filter((c) => c.lamp === lamp && c.photo % 2 === 0).map((c) => rowOf(c, fitted));
    console.log(`  ${lamp.padEnd(8)} ECE ${(100 * eceOf(seen)).toFixed(1)} % of ${seen.length}`);
    return seen;
  });
  tell('unseen lamps', rows);
  console.log(`ECE under lamps that the calibration never saw: ${(100 * eceOf(rows)).toFixed(2)} %`);
}

function meanAndWorst(of: (e: LightError) => number): string {
  const sorted = light.map(of).sort((a, b) => a - b);
  const mean = (v: readonly number[]): string => (v.reduce((s, x) => s + x, 0) / v.length).toFixed(2);
  return `mean ${mean(sorted)}, worst quarter ${mean(sorted.slice(Math.floor(sorted.length * 0.75)))}`;
}

function report(): void {
  const rows = cases.map((c) => rowOf(c, CALIBRATION));
  for (const name of COLOR_NAMES) {
    const own = rows.filter((r) => r.truth === name);
    if (own.length > 0) tell(name, own);
  }
  for (const quality of QUALITIES) {
    const own = rows.filter((r) => r.quality === quality);
    if (own.length === 0) continue;
    tell(quality, own);
    console.log(`  ECE ${(100 * eceOf(own)).toFixed(2)} %`);
  }
  tell('all', rows);
  tellConfusions(rows, ['brown', 'red', 'orange']);
  tellConfusions(rows, ['blue', 'gray', 'violet']);
  tellConfusions(rows, ['white', 'gray', 'yellow']);
  const bins = binsOf(rows);
  for (const b of bins)
    console.log(
      `  said ${percent(b.said, 1)}  right ${percent(b.right, 1)}  ${'#'.repeat(Math.round(40 * b.right))} ${b.count}`,
    );
  console.log(`ECE ${(100 * eceOf(rows)).toFixed(2)} %; ms per conductor ${msPerConductor.toFixed(2)}`);
  tellUnseenLamps(cases);
  console.log(`light error, degrees: scene statistics alone ${meanAndWorst((e) => e.statistics)}`);
  console.log(`  with the prior of white-balanced photos ${meanAndWorst((e) => e.before)}`);
  console.log(`  after naming ${meanAndWorst((e) => e.after)}`);
  console.log(`  taken as neutral ${meanAndWorst((e) => e.neutral)}`);
  const svg = after('--svg');
  if (svg) writeFileSync(svg, reliabilitySvg(bins, `${rows.length} simulated readings`));
}
