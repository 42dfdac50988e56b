/**
 * CIE 1931 chromaticity of light of a correlated color temperature, kelvin: CIE daylight from 4000 K (CIE 015:2018,
 * the polynomials of illuminant D), the Planckian locus below (Kim et al. 2002). Both from memory; checked in
 * lamp-gains.test.ts against the published points of D65, D50 and illuminant A.
 */
export function chromaticityAt(kelvin: number): readonly [x: number, y: number] {
  const t = 1000 / kelvin;
  if (kelvin >= 4000) {
    const x =
      kelvin <= 7000
        ? 0.244063 + 0.09911 * t + 2.9678 * t ** 2 - 4.607 * t ** 3
        : 0.23704 + 0.24748 * t + 1.9018 * t ** 2 - 2.0064 * t ** 3;
    return [x, -3 * x * x + 2.87 * x - 0.275];
  }
  const x = -0.2661239 * t ** 3 - 0.234358 * t ** 2 + 0.8776956 * t + 0.17991;
  const y =
    kelvin < 2222
      ? -1.1063814 * x ** 3 - 1.3481102 * x ** 2 + 2.18555832 * x - 0.20219683
      : -0.9549476 * x ** 3 - 1.37418593 * x ** 2 + 2.09137015 * x - 0.16748867;
  return [x, y];
}

/** Linear sRGB of a chromaticity at luminance 1, IEC 61966-2-1. */
function linearOf([x, y]: readonly [number, number]): readonly [number, number, number] {
  const [X, Z] = [x / y, (1 - x - y) / y];
  return [
    3.2404542 * X - 1.5371385 - 0.4985314 * Z,
    -0.969266 * X + 1.8760108 + 0.041556 * Z,
    0.0556434 * X - 0.2040259 + 1.0572252 * Z,
  ];
}

/**
 * What a camera whose white balance stays at `from` makes of light at `to`: factors on linear red, green and blue,
 * green 1. The von Kries rule on sRGB primaries, as cameras apply it.
 */
export function gainsBetween(from: number, to: number): readonly [number, number, number] {
  const a = linearOf(chromaticityAt(from));
  const b = linearOf(chromaticityAt(to));
  const g = b[1] / a[1];
  return [b[0] / a[0] / g, 1, b[2] / a[2] / g];
}
