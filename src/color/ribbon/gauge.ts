/** Sizes of building wire that widths are compared with. */
export const WIRE_SIZES = [
  '14 AWG',
  '12 AWG',
  '10 AWG',
  '8 AWG',
  '6 AWG',
  '4 AWG',
  '3 AWG',
  '2 AWG',
  '1 AWG',
  '1/0 AWG',
  '2/0 AWG',
  '3/0 AWG',
  '4/0 AWG',
] as const;
export type WireSize = (typeof WIRE_SIZES)[number];

export const isWireSize = (value: unknown): value is WireSize =>
  typeof value === 'string' && (WIRE_SIZES as readonly string[]).includes(value);

/**
 * Approximate outside diameter with THHN or THWN-2 insulation, mm: NEC chapter 9 table 5 (2008 and 2017 editions, read
 * in secondary text; test/published/awg-od.json).
 */
const OUTER_MM: Readonly<Record<WireSize, number>> = {
  '14 AWG': 2.819,
  '12 AWG': 3.302,
  '10 AWG': 4.166,
  '8 AWG': 5.486,
  '6 AWG': 6.452,
  '4 AWG': 8.23,
  '3 AWG': 8.941,
  '2 AWG': 9.754,
  '1 AWG': 11.33,
  '1/0 AWG': 12.34,
  '2/0 AWG': 13.51,
  '3/0 AWG': 14.83,
  '4/0 AWG': 16.31,
};

/** AWG number of a size: 1/0 is 0, 2/0 is -1, and so on. */
export const awgNumber = (size: WireSize): number => {
  const [number, zero] = size.replace(' AWG', '').split('/');
  return zero === undefined ? Number(number) : 1 - Number(number);
};

/** Diameter of solid wire, mm, by the rule of ASTM B258: 36 AWG is 0.005 in, 4/0 is 0.46 in, 39 equal ratios between. */
export const awgDiameterMm = (n: number): number => 0.127 * 92 ** ((36 - n) / 39);

/** Outside diameter with thin thermoplastic insulation, mm. */
export const outerDiameterMm = (size: WireSize): number => OUTER_MM[size];

/** How far the measured width of a conductor is off, pixels (standard deviation). Assumed. */
const WIDTH_PX = 1;
/** Depth: two conductors of one enclosure differ in distance by about this share (standard deviation). Assumed. */
const PERSPECTIVE = 0.09;
/** Makers and insulation types differ in outside diameter (THHN against XHHW: up to 0.2 for 14 AWG). Assumed. */
const MAKE = 0.06;

export interface SizeCandidate {
  readonly size: WireSize;
  readonly probability: number;
}

/**
 * Which size a conductor may be, from its width beside that of one of known size in the same photo, most probable
 * first, those under 2 % left out. Widths in pixels, both above 0. Valid where both lie about equally far from the
 * camera and both carry insulation: a conductor nearer to it looks thicker.
 */
export function sizesBeside(
  known: { readonly size: WireSize; readonly widthPx: number },
  widthPx: number,
): SizeCandidate[] {
  const variance = (WIDTH_PX / known.widthPx) ** 2 + (WIDTH_PX / widthPx) ** 2 + PERSPECTIVE ** 2 + MAKE ** 2;
  const seen = Math.log(widthPx / known.widthPx);
  const weights = WIRE_SIZES.map((size) => {
    const off = Math.log(OUTER_MM[size] / OUTER_MM[known.size]) - seen;
    return Math.exp((-0.5 * off * off) / variance);
  });
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (!(total > 0)) return [];
  return WIRE_SIZES.map((size, k) => ({ size, probability: weights[k]! / total }))
    .filter((c) => c.probability >= 0.02)
    .sort((p, q) => q.probability - p.probability);
}
