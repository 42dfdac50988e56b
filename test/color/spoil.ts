import type { LightPosterior } from '../../src/color';
import type { Ribbon } from '../../src/flow';
import { normal, seeded } from './make-ribbon';

/** What is known of one shot of a conductor. */
export interface Shot {
  readonly ribbon: Ribbon;
  readonly light: LightPosterior;
}

/** 8-bit sRGB levels, IEC 61966-2-1. */
function stored(linear: number): number {
  const x = Math.min(1, Math.max(0, linear));
  const v = Math.round(255 * (x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055)) / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
}

const sdAt = (linear: number, noise: number): number => noise * Math.sqrt(Math.max(0.02, linear) / 0.2);

function each(ribbon: Ribbon, change: (v: number) => number): Ribbon {
  const rgb = ribbon.rgb.map((v) => stored(change(v)));
  const usable = ribbon.usable.map((u, k) => (Math.max(rgb[3 * k]!, rgb[3 * k + 1]!, rgb[3 * k + 2]!) < 0.96 ? u : 0));
  return { ...ribbon, rgb, usable };
}

/** Noise of a sensor that got `share` of the light, on top of what the picture has. */
export function darker({ ribbon, light }: Shot, share: number): Shot {
  const random = seeded(17);
  const added = (v: number): number =>
    Math.sqrt(Math.max(0, sdAt(share * v, ribbon.noise) ** 2 - (share * sdAt(v, ribbon.noise)) ** 2));
  const dark = each(ribbon, (v) => share * v + added(v) * normal(random));
  return { ribbon: dark, light: { ...light, anchor: Math.max(0.01, share * light.anchor) } };
}

export function noisier({ ribbon, light }: Shot, noise: number): Shot {
  const random = seeded(23);
  const grainy = each(ribbon, (v) => v + sdAt(v, noise) * normal(random));
  return { ribbon: { ...grainy, noise: Math.hypot(ribbon.noise, noise) }, light };
}

/**
 * Exposed `times` longer. The bright end is cut off at 0.9, and a white taken to lie 1.2 stops above, as the estimate of
 * the light does (src/color/light/bright-end.ts).
 */
export const longer = ({ ribbon, light }: Shot, times: number): Shot => ({
  ribbon: each(ribbon, (v) => times * v),
  light: { ...light, anchor: Math.min(0.9 * 2 ** 1.2, times * light.anchor) },
});

/** A Gaussian of `px` pixels along and across. */
export function blurrier({ ribbon, light }: Shot, px: number): Shot {
  const reach = Math.ceil(2.5 * px);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-0.5 * ((k - reach) / px) ** 2));
  const total = kernel.reduce((sum, g) => sum + g, 0);
  const pass = (from: Float32Array, along: boolean): Float32Array => {
    const { length, across } = ribbon;
    const to = new Float32Array(from.length);
    for (let i = 0; i < length; i++)
      for (let j = 0; j < across; j++)
        for (let k = -reach; k <= reach; k++) {
          const [y, x] = along
            ? [Math.min(length - 1, Math.max(0, i + k)), j]
            : [i, Math.min(across - 1, Math.max(0, j + k))];
          for (let c = 0; c < 3; c++)
            to[(i * across + j) * 3 + c]! += (kernel[k + reach]! / total) * from[(y * across + x) * 3 + c]!;
        }
    return to;
  };
  const rgb = pass(pass(ribbon.rgb, true), false);
  return {
    ribbon: { ...ribbon, rgb, noise: ribbon.noise / Math.max(1, px), blurPx: Math.hypot(ribbon.blurPx, px) },
    light,
  };
}
