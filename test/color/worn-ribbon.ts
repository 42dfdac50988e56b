import { COLOR_NAMES, type ColorName, type Ribbon } from '../../src/flow';
import { normal, seeded } from './make-ribbon';

/** Fully lit linear sRGB of a few insulations a name; invented, between new and faded. */
const PAINT: Partial<Record<ColorName, readonly (readonly [number, number, number])[]>> = {
  black: [
    [0.012, 0.012, 0.014],
    [0.03, 0.027, 0.026],
  ],
  brown: [
    [0.11, 0.045, 0.02],
    [0.07, 0.034, 0.022],
  ],
  red: [
    [0.36, 0.03, 0.03],
    [0.3, 0.07, 0.05],
  ],
  orange: [
    [0.6, 0.17, 0.02],
    [0.5, 0.2, 0.07],
  ],
  yellow: [
    [0.62, 0.45, 0.03],
    [0.55, 0.45, 0.15],
  ],
  green: [
    [0.02, 0.17, 0.06],
    [0.05, 0.18, 0.1],
  ],
  blue: [
    [0.02, 0.08, 0.3],
    [0.06, 0.12, 0.25],
  ],
  violet: [
    [0.1, 0.03, 0.2],
    [0.12, 0.07, 0.2],
  ],
  gray: [
    [0.16, 0.16, 0.17],
    [0.25, 0.25, 0.24],
  ],
  white: [
    [0.68, 0.67, 0.62],
    [0.55, 0.52, 0.42],
  ],
};
const DUST = [0.3, 0.26, 0.2] as const;
const NOISE = 0.008;

export interface Worn {
  readonly name: ColorName;
  readonly ribbon: Ribbon;
}

/**
 * A conductor as jobsite photos show them: shading along and across, a highlight, patches of dust, print, and on half of
 * them a neighbor that shows along one rim over a part of the length. Seeded.
 */
export function wornRibbon(seed: number): Worn {
  const random = seeded(seed * 7919 + 11);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const names = COLOR_NAMES.filter((n) => PAINT[n]);
  const name = pick(names);
  const body = pick(PAINT[name]!);
  const neighbor = random() < 0.5 ? pick(PAINT[pick(names)]!) : null;
  const [reach, upTo] = [0.5 + 0.4 * random(), 0.3 + 0.7 * random()];
  const dust = random() ** 2 * 0.5;
  const phase = 6 * random();
  const fall = random() - 0.5;
  const print = random() < 0.3;
  const lit = 0.35 + 0.5 * random();
  const gloss = 0.25 * random();
  const length = 40;
  const across = 12;
  const rgb = new Float32Array(length * across * 3);
  const usable = new Uint8Array(length * across);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) {
      const t = ((j + 0.5) / across) * 2 - 1;
      const shade = lit * (1 + fall * (i / length - 0.5)) * (0.25 + 0.75 * Math.sqrt(Math.max(0, 1 - t * t)));
      const share = Math.max(0, dust * Math.sin(phase + i / 5) * Math.cos(2 * t + phase));
      const printed = print && Math.abs(t) < 0.2 && i % 5 < 2 && i > 8 && i < 30;
      const strays = neighbor !== null && t > reach && i < upTo * length;
      const paint = strays ? neighbor : printed ? body.map((v) => 0.5 * v + (body[1] > 0.3 ? 0 : 0.2)) : body;
      const shine = gloss * lit * Math.exp(-(((t + 0.25) / 0.12) ** 2));
      for (let c = 0; c < 3; c++) {
        const clean = shade * ((1 - share) * paint[c]! + share * DUST[c]!) + shine * 0.3;
        const sd = NOISE * Math.sqrt(Math.max(0.02, clean) / 0.2);
        rgb[(i * across + j) * 3 + c] = Math.min(1, Math.max(0, clean + sd * normal(random)));
      }
      usable[i * across + j] = 1;
    }
  return { name, ribbon: { length, across, stepPx: 1, widthPx: across, rgb, usable, noise: NOISE, blurPx: 0.8 } };
}
