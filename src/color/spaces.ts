import {
  convertLab65ToRgb,
  convertLrgbToRgb,
  convertRgbToLab65,
  convertRgbToLrgb,
  differenceCiede2000,
} from 'culori/fn';

/** Linear sRGB, each channel 0 to 1 (may exceed 1 for highlights). */
export type Rgb = readonly [r: number, g: number, b: number];
/** CIELAB under D65, 2 degree observer: L 0 to 100. */
export type Lab = readonly [L: number, a: number, b: number];
/** What names are told apart by: OKLab a/L and b/L, which shading cannot change, and log2 of relative luminance. */
export type Features = readonly [s: number, t: number, y: number];

/** Relative luminance of linear sRGB, IEC 61966-2-1. */
export const luminance = (r: number, g: number, b: number): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** sRGB 8-bit level to linear light, IEC 61966-2-1. */
export const LINEAR_OF_LEVEL: Float32Array = Float32Array.from({ length: 256 }, (_, level) => {
  const v = level / 255;
  return convertRgbToLrgb({ r: v, g: v, b: v }).r;
});

/** CIELAB D65 of linear sRGB. */
export function labOf(rgb: Rgb): Lab {
  const lab = convertRgbToLab65(convertLrgbToRgb({ r: rgb[0], g: rgb[1], b: rgb[2] }));
  return [lab.l, lab.a, lab.b];
}

/** sRGB, each channel 0 to 1 and clipped to the gamut, of CIELAB D65. For showing a color. */
export function srgbOf(lab: Lab): Rgb {
  const rgb = convertLab65ToRgb({ l: lab[0], a: lab[1], b: lab[2] });
  const clip = (v: number | undefined): number => Math.min(1, Math.max(0, v ?? 0));
  return [clip(rgb.r), clip(rgb.g), clip(rgb.b)];
}

const ciede2000 = differenceCiede2000();

/** CIEDE2000 color difference (Sharma, Wu, Dalal 2005) of two CIELAB colors under the same white. */
export const deltaE2000 = (x: Lab, y: Lab): number =>
  ciede2000({ mode: 'lab65', l: x[0], a: x[1], b: x[2] }, { mode: 'lab65', l: y[0], a: y[1], b: y[2] });

/** Below this a channel says nothing: about a third of the first 8-bit level. */
const DARKEST = 1e-4;

/**
 * Saturation of linear sRGB: a/L and b/L of OKLab (B. Ottosson, "A perceptual color space for image processing", 2020), which
 * is homogeneous of degree 1/3 in linear light, so that they are the same at every shading. Written out, as every pixel
 * of a conductor passes here; the numbers are those of culori's convertLrgbToOklab.
 */
export function saturationOf(red: number, green: number, blue: number): readonly [s: number, t: number] {
  const r = Math.max(red, DARKEST);
  const g = Math.max(green, DARKEST);
  const b = Math.max(blue, DARKEST);
  const l = Math.cbrt(0.412221469470763 * r + 0.5363325372617348 * g + 0.0514459932675022 * b);
  const m = Math.cbrt(0.2119034958178252 * r + 0.6806995506452344 * g + 0.1073969535369406 * b);
  const s = Math.cbrt(0.0883024591900564 * r + 0.2817188391361215 * g + 0.6299787016738222 * b);
  const lightness = 0.210454268309314 * l + 0.7936177747023054 * m - 0.0040720430116193 * s;
  return [
    (1.9779985324311684 * l - 2.4285922420485799 * m + 0.450593709617411 * s) / lightness,
    (0.0259040424655478 * l + 0.7827717124575296 * m - 0.8086757549230774 * s) / lightness,
  ];
}

/** How saturated, 0 and up. Where it is asked of every pixel: Math.hypot takes ten times as long and leaves garbage. */
export const strengthOf = (s: number, t: number): number => Math.sqrt(s * s + t * t);

/** Features of linear sRGB in which a full white under the scene's light is (1, 1, 1). */
export function featuresOf(r: number, g: number, b: number): Features {
  const [s, t] = saturationOf(r, g, b);
  return [s, t, Math.log2(Math.max(luminance(r, g, b), DARKEST))];
}
