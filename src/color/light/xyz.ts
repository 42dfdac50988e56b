import { convertLrgbToRgb, convertRgbToLrgb, convertRgbToXyz65, convertXyz65ToRgb } from 'culori/fn';
import type { Rgb } from '../spaces';

/** Linear sRGB of XYZ (D65, Y = 1 for white). */
export const convertXyz65ToLrgb = (x: number, y: number, z: number): { r: number; g: number; b: number } =>
  convertRgbToLrgb(convertXyz65ToRgb({ x, y, z }));

/** CIE 1931 chromaticity of linear sRGB. */
export function chromaticityOf(rgb: Rgb): [x: number, y: number] {
  const { x, y, z } = convertRgbToXyz65(convertLrgbToRgb({ r: rgb[0], g: rgb[1], b: rgb[2] }));
  const sum = x + y + z;
  return [x / sum, y / sum];
}
