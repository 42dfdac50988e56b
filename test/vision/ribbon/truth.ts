import { COLOR_NAMES, type ColorName, type Point, type StripeLayout } from '../../../src/flow';
import { COVERING, type Marked, type MarkedScene } from './scenes';

/** Labels along a straightened conductor, 12 cells a diameter both ways. */
export interface LabelRibbon {
  readonly length: number;
  readonly across: number;
  /** Pixels of the scene from row to row. */
  readonly stepPx: number;
  readonly instance: Uint16Array;
  readonly covering: Uint8Array;
  readonly stripe: Uint8Array;
  readonly print: Uint8Array;
  readonly color: Uint8Array;
}

const ACROSS = 12;
/** Columns that count: the rims mix with the surroundings. */
const [FIRST, LAST] = [1, ACROSS - 1];

/**
 * Reads the label planes along a center line (pixels of the scene). `widths`: of one row for each point of the line, which
 * then is evenly spaced; without them rows are laid by the width, and all are as wide.
 */
export function labelRibbon(
  scene: MarkedScene,
  line: readonly Point[],
  widthPx: number,
  widths?: Float32Array,
): LabelRibbon {
  const arc = [0];
  for (let k = 1; k < line.length; k++)
    arc.push(arc[k - 1]! + Math.hypot(line[k]![0] - line[k - 1]![0], line[k]![1] - line[k - 1]![1]));
  const total = arc[arc.length - 1] ?? 0;
  const rows = widths?.length;
  const stepPx = rows ? total / Math.max(1, rows - 1) : Math.max(widthPx / ACROSS, total / 480);
  const length = rows ?? Math.max(0, Math.floor(total / stepPx));
  const cells = length * ACROSS;
  const ribbon: LabelRibbon = {
    length,
    across: ACROSS,
    stepPx,
    instance: new Uint16Array(cells),
    covering: new Uint8Array(cells),
    stripe: new Uint8Array(cells),
    print: new Uint8Array(cells),
    color: new Uint8Array(cells).fill(255),
  };
  let k = 1;
  for (let i = 0; i < length; i++) {
    const s = (rows ? i : i + 0.5) * stepPx;
    while (k < line.length - 1 && arc[k]! < s) k++;
    const t = (s - arc[k - 1]!) / Math.max(1e-6, arc[k]! - arc[k - 1]!);
    const x = line[k - 1]![0] + t * (line[k]![0] - line[k - 1]![0]);
    const y = line[k - 1]![1] + t * (line[k]![1] - line[k - 1]![1]);
    const a = line[Math.max(0, k - 3)]!;
    const b = line[Math.min(line.length - 1, k + 2)]!;
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    for (let j = 0; j < ACROSS; j++) {
      const offset = (((2 * (j + 0.5)) / ACROSS - 1) * (widths?.[i] ?? widthPx)) / 2;
      const px = Math.floor(x - ((b[1] - a[1]) / size) * offset);
      const py = Math.floor(y + ((b[0] - a[0]) / size) * offset);
      if (px < 0 || py < 0 || px >= scene.size || py >= scene.size) continue;
      const from = py * scene.size + px;
      const to = i * ACROSS + j;
      ribbon.instance[to] = scene.instance[from]!;
      ribbon.covering[to] = scene.covering[from]!;
      ribbon.stripe[to] = scene.stripe[from]!;
      ribbon.print[to] = scene.print[from]!;
      ribbon.color[to] = scene.color[from]!;
    }
  }
  return ribbon;
}

/** A marked stretch, shares of the length. */
export interface TrueStretch {
  readonly from: number;
  readonly to: number;
  /** Diameters. */
  readonly length: number;
  readonly color: ColorName | null;
}

/** What really lies on a traced conductor, as far as it shows. */
export interface Truth {
  readonly marked: Marked;
  /** Share of the cells that are this conductor's. */
  readonly purity: number;
  readonly stripe: {
    readonly layout: StripeLayout;
    readonly name: ColorName;
    /** Share of the conductor's seen surface, 0 when it lies on the far side. */
    readonly share: number;
    /** Width of the stripe across its own direction, pixels. */
    readonly widthPx: number;
  } | null;
  readonly tapes: readonly TrueStretch[];
  readonly bare: readonly TrueStretch[];
}

/** Shorter stretches than this are not asked for, diameters. */
export const LEAST_LENGTH = 0.5;

/** The truth of the conductor that most cells belong to; null where that is none, or a jacket. */
export function truthOf(scene: MarkedScene, labels: LabelRibbon, widthPx: number): Truth | null {
  const counts = new Map<number, number>();
  for (const id of labels.instance) if (id) counts.set(id, (counts.get(id) ?? 0) + 1);
  const main = [...counts].sort((p, q) => q[1] - p[1])[0];
  const marked = main && scene.conductors.get(main[0]);
  if (!main || !marked || marked.covering !== COVERING.insulated) return null;
  const own = (k: number): boolean => labels.instance[k] === main[0];
  return {
    marked,
    purity: main[1] / Math.max(1, labels.instance.length),
    stripe: stripeTruth(labels, marked, own, widthPx),
    tapes: stretches(labels, own, COVERING.tape),
    bare: stretches(labels, own, COVERING.bare),
  };
}

function stripeTruth(
  labels: LabelRibbon,
  { stripe }: Marked,
  own: (k: number) => boolean,
  widthPx: number,
): Truth['stripe'] {
  if (!stripe) return null;
  const { length, across } = labels;
  let [all, on, acrossRuns, alongRuns] = [0, 0, 0, 0];
  const is = (k: number): boolean => own(k) && labels.stripe[k]! > 0;
  for (let i = 0; i < length; i++)
    for (let j = FIRST; j < LAST; j++) {
      const k = i * across + j;
      if (!own(k)) continue;
      all++;
      if (!is(k)) continue;
      on++;
      if (j === FIRST || !is(k - 1)) acrossRuns++;
      if (i === 0 || !is(k - across)) alongRuns++;
    }
  const wide = acrossRuns ? ((on / acrossRuns) * widthPx) / across : 0;
  const long = alongRuns ? (on / alongRuns) * labels.stepPx : 0;
  const slanted = (wide * long) / Math.max(1e-6, Math.hypot(wide, long));
  return {
    layout: stripe.layout,
    name: stripe.name,
    share: all ? on / all : 0,
    widthPx: stripe.layout === 'along' ? wide : stripe.layout === 'rings' ? long : slanted,
  };
}

function stretches(labels: LabelRibbon, own: (k: number) => boolean, covering: number): TrueStretch[] {
  const { length, across } = labels;
  const rows = Array.from({ length }, (_, i) => {
    let on = 0;
    for (let j = FIRST; j < LAST; j++) {
      const k = i * across + j;
      if (own(k) && labels.covering[k] === covering) on++;
    }
    return on > (LAST - FIRST) / 2;
  });
  const out: TrueStretch[] = [];
  let from = -1;
  for (let i = 0; i <= length; i++) {
    if (rows[i] && from < 0) from = i;
    if (!rows[i] && from >= 0) {
      const diameters = (i - from) / across;
      const color = labels.color[Math.floor((from + i) / 2) * across + (across >> 1)]!;
      if (diameters >= LEAST_LENGTH)
        out.push({ from: from / length, to: i / length, length: diameters, color: COLOR_NAMES[color] ?? null });
      from = -1;
    }
  }
  return out;
}
