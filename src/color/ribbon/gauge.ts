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
export type AwgSize = (typeof WIRE_SIZES)[number];

/** Sizes of metric building wire, nominal cross sections of IEC 60228. */
export const METRIC_SIZES = [
  '1.5 mm²',
  '2.5 mm²',
  '4 mm²',
  '6 mm²',
  '10 mm²',
  '16 mm²',
  '25 mm²',
  '35 mm²',
  '50 mm²',
  '70 mm²',
  '95 mm²',
] as const;
export type MetricSize = (typeof METRIC_SIZES)[number];
export type WireSize = AwgSize | MetricSize;

const isMetric = (value: unknown): value is MetricSize => (METRIC_SIZES as readonly unknown[]).includes(value);

export const isWireSize = (value: unknown): value is WireSize =>
  isMetric(value) || (WIRE_SIZES as readonly unknown[]).includes(value);

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
  // H07V-R, middle of the lower and upper mean diameters of EN 50525-2-31 (from memory; makers' sheets agree within 5 %).
  '1.5 mm²': 3,
  '2.5 mm²': 3.6,
  '4 mm²': 4.2,
  '6 mm²': 4.7,
  '10 mm²': 6.1,
  '16 mm²': 7.2,
  '25 mm²': 8.9,
  '35 mm²': 10.1,
  '50 mm²': 11.9,
  '70 mm²': 13.7,
  '95 mm²': 15.8,
};

/** AWG number of a size: 1/0 is 0, 2/0 is -1, and so on. */
export const awgNumber = (size: AwgSize): number => {
  const [number, zero] = size.replace(' AWG', '').split('/');
  return zero === undefined ? Number(number) : 1 - Number(number);
};

/** Diameter of solid wire, mm, by the rule of ASTM B258: 36 AWG is 0.005 in, 4/0 is 0.46 in, 39 equal ratios between. */
export const awgDiameterMm = (n: number): number => 0.127 * 92 ** ((36 - n) / 39);

/** Cross section of the metal, mm²: that of solid wire by ASTM B258 (stranded has the same), or the nominal one. */
export const areaMm2 = (size: WireSize): number =>
  isMetric(size) ? Number.parseFloat(size) : (Math.PI / 4) * awgDiameterMm(awgNumber(size)) ** 2;

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
 * first, in the system of sizes of the known one, those under 2 % left out. Widths in pixels, both above 0. Valid where both lie about equally far from the
 * camera and both carry insulation: a conductor nearer to it looks thicker.
 */
export function sizesBeside(
  known: { readonly size: WireSize; readonly widthPx: number },
  widthPx: number,
): SizeCandidate[] {
  const variance = (WIDTH_PX / known.widthPx) ** 2 + (WIDTH_PX / widthPx) ** 2 + PERSPECTIVE ** 2 + MAKE ** 2;
  const seen = Math.log(widthPx / known.widthPx);
  const sizes: readonly WireSize[] = isMetric(known.size) ? METRIC_SIZES : WIRE_SIZES;
  const weights = sizes.map((size) => {
    const off = Math.log(OUTER_MM[size] / OUTER_MM[known.size]) - seen;
    return Math.exp((-0.5 * off * off) / variance);
  });
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (!(total > 0)) return [];
  return sizes
    .map((size, k) => ({ size, probability: weights[k]! / total }))
    .filter((c) => c.probability >= 0.02)
    .sort((p, q) => q.probability - p.probability);
}

/**
 * The sizes, thinnest and thickest, between which the true one lies in at least `share` of cases: taken in order of
 * probability until they make it up. Null when there is none.
 */
export function sizeRange(
  candidates: readonly SizeCandidate[],
  share = 0.9,
): { readonly from: WireSize; readonly to: WireSize; readonly probability: number } | null {
  const taken: SizeCandidate[] = [];
  let sum = 0;
  for (const one of candidates) {
    if (sum >= share) break;
    taken.push(one);
    sum += one.probability;
  }
  taken.sort((p, q) => OUTER_MM[p.size] - OUTER_MM[q.size]);
  const [first, last] = [taken[0], taken[taken.length - 1]];
  return first && last ? { from: first.size, to: last.size, probability: sum } : null;
}
