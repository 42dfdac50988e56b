import type { Ribbon } from '../../src/flow';

/** Small seeded generator (Lehmer, modulus 2^31 - 1), so that tests depend on no chance. */
export function seeded(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(random() + 1e-12)) * Math.cos(2 * Math.PI * random());

export interface RibbonRecipe {
  /** Linear sRGB of the body, fully lit. */
  readonly body: readonly [number, number, number];
  /** Linear sRGB of a second color and where it lies (along i and across t in -1..1). */
  readonly second?: {
    readonly rgb: readonly [number, number, number];
    readonly where: (i: number, t: number) => boolean;
  };
  readonly exposure?: number;
  readonly light?: readonly [number, number, number];
  readonly noise?: number;
  readonly highlight?: number;
  readonly widthPx?: number;
  readonly blurPx?: number;
  /** Channels above this count as clipped. */
  readonly clip?: number;
  readonly seed?: number;
}

/** A lit cylinder straightened: cosine shading, one highlight line, seeded noise. */
export function makeRibbon(recipe: RibbonRecipe): Ribbon {
  const random = seeded(recipe.seed ?? 1);
  const length = 30;
  const across = 14;
  const noise = recipe.noise ?? 0.006;
  const light = recipe.light ?? [1, 1, 1];
  const rgb = new Float32Array(length * across * 3);
  const usable = new Uint8Array(length * across);
  for (let i = 0; i < length; i++) {
    for (let j = 0; j < across; j++) {
      const t = ((j + 0.5) / across) * 2 - 1;
      const shade = 0.3 + 0.7 * Math.sqrt(Math.max(0, 1 - (t + 0.15) ** 2));
      const shine = (recipe.highlight ?? 0) * Math.exp(-(((t - 0.2) / 0.12) ** 2));
      const color = recipe.second?.where(i, t) ? recipe.second.rgb : recipe.body;
      let top = 0;
      for (let c = 0; c < 3; c++) {
        const clean = (recipe.exposure ?? 1) * light[c]! * (color[c]! * shade + shine);
        const v = clean + noise * Math.sqrt(Math.max(0.02, clean) / 0.2) * normal(random);
        const kept = Math.min(recipe.clip ?? 1, Math.max(0, v));
        rgb[(i * across + j) * 3 + c] = kept;
        top = Math.max(top, kept);
      }
      usable[i * across + j] = top < (recipe.clip ?? 1) * 0.985 ? 1 : 0;
    }
  }
  return {
    length,
    across,
    stepPx: 1,
    widthPx: recipe.widthPx ?? 14,
    rgb,
    usable,
    noise,
    blurPx: recipe.blurPx ?? 0.8,
  };
}
