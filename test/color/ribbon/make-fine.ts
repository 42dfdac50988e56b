import { BESIDE, type CloserLook, type FineRibbon, SAID } from '../../../src/flow';
import { normal, seeded } from '../make-ribbon';

export type Rgb = readonly [number, number, number];

export interface FineRecipe {
  /** Linear sRGB of the body, fully lit. */
  readonly body: Rgb;
  /** Other colors and where they lie: row i, place across t in -1..1. The last that applies wins. */
  readonly on?: readonly { readonly rgb: Rgb; readonly where: (i: number, t: number) => boolean }[];
  readonly length?: number;
  readonly widthPx?: number;
  readonly blurPx?: number;
  readonly noise?: number;
  readonly highlight?: number;
  readonly seed?: number;
  /** Light along the ribbon, 1 where fully lit. */
  readonly light?: (i: number) => number;
}

const ACROSS = 12;

/** What a segmentation might say, plane by plane of SAID, where it sees a conductor without a mark, and where it sees none. */
const ON = [-3, 1, 0, -4, -3, -0.1] as const;
const OFF = [-3, 0, 0, -4, -4, -2.6] as const;
/** Log-odds of a conductor there. */
const WIRE = 2.9;
const saidOf = (cells: number, each: readonly number[]): Float32Array =>
  Float32Array.from({ length: cells * SAID.length }, (_, k) => each[k % SAID.length]!);

/** A gray wall on both sides. */
function wallBeside(length: number, noise: number, random: () => number): CloserLook['beside'] {
  const cells = length * 2 * BESIDE;
  return {
    rgb: Float32Array.from({ length: 3 * cells }, () => Math.max(0, 0.2 + noise * normal(random))),
    usable: new Uint8Array(cells).fill(1),
    wire: new Float32Array(cells).fill(-WIRE),
    said: saidOf(cells, OFF),
  };
}

/** A lit cylinder straightened finely, running to the right: shading, a highlight line, blur, seeded noise. */
export function makeFine(recipe: FineRecipe): FineRibbon {
  const random = seeded(recipe.seed ?? 1);
  const length = recipe.length ?? 96;
  const widthPx = recipe.widthPx ?? 14;
  const blurPx = recipe.blurPx ?? 0.8;
  const noise = recipe.noise ?? 0.006;
  const clean = new Float64Array(length * ACROSS * 3);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < ACROSS; j++) {
      const t = ((j + 0.5) / ACROSS) * 2 - 1;
      const shade = (0.3 + 0.7 * Math.sqrt(Math.max(0, 1 - (t + 0.15) ** 2))) * (recipe.light?.(i) ?? 1);
      const shine = (recipe.highlight ?? 0) * Math.exp(-(((t - 0.2) / 0.12) ** 2));
      const color = (recipe.on ?? []).reduce<Rgb>((c, part) => (part.where(i, t) ? part.rgb : c), recipe.body);
      for (let c = 0; c < 3; c++) clean[(i * ACROSS + j) * 3 + c] = color[c]! * shade + shine;
    }
  const sigma = (blurPx * ACROSS) / widthPx;
  const reach = Math.ceil(2.5 * sigma);
  const rgb = new Float32Array(clean.length);
  const usable = new Uint8Array(length * ACROSS);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < ACROSS; j++)
      for (let c = 0; c < 3; c++) {
        let sum = 0;
        let weight = 0;
        for (let di = -reach; di <= reach; di++)
          for (let dj = -reach; dj <= reach; dj++) {
            const [y, x] = [i + di, j + dj];
            if (y < 0 || y >= length || x < 0 || x >= ACROSS) continue;
            const w = Math.exp((-0.5 * (di * di + dj * dj)) / Math.max(1e-3, sigma * sigma));
            sum += w * clean[(y * ACROSS + x) * 3 + c]!;
            weight += w;
          }
        const v = sum / weight;
        const k = (i * ACROSS + j) * 3 + c;
        rgb[k] = Math.min(1, Math.max(0, v + noise * Math.sqrt(Math.max(0.02, v) / 0.2) * normal(random)));
      }
  for (let k = 0; k < usable.length; k++)
    usable[k] = Math.max(rgb[3 * k]!, rgb[3 * k + 1]!, rgb[3 * k + 2]!) < 0.97 ? 1 : 0;
  const look: CloserLook = { said: saidOf(length * ACROSS, ON), beside: wallBeside(length, noise, random) };
  return {
    length,
    across: ACROSS,
    stepPx: widthPx / ACROSS,
    widthPx,
    rgb,
    usable,
    noise,
    blurPx,
    centers: Array.from({ length }, (_, i) => [10 + (i + 0.5) * (widthPx / ACROSS), 50] as const),
    widths: new Float32Array(length).fill(widthPx),
    seen: new Uint8Array(length).fill(1),
    wire: new Float32Array(length * ACROSS).fill(WIRE),
    closer: () => look,
  };
}
