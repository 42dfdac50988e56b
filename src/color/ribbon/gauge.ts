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
  const mm = (OUTER_MM[known.size] * widthPx) / known.widthPx;
  return sizesOf(mm, variance, isMetric(known.size) ? METRIC_SIZES : WIRE_SIZES);
}

/** How exactly the end of a known length is touched, pixels (standard deviation), with loupe or crosshair. Assumed. */
const TOUCH_PX = 2;
/** A length that does not lie square to the line of sight looks shorter: by this share (standard deviation; 17 degrees). Assumed. */
const TILT = 0.05;

/** Lengths that a standard fixes, of things that lie in an enclosure or in a pocket and conduct nothing or are mounted, mm. */
export const KNOWN_LENGTHS = {
  /** Top-hat rail TH 35, across: IEC 60715 (from memory). */
  rail: 35,
  /** Card of format ID-1, long side: ISO/IEC 7810 (from memory). */
  card: 85.6,
} as const;

/** A length in the photo: how many pixels of the working image its `mm` are. Both above 0. */
export interface SeenLength {
  readonly mm: number;
  readonly px: number;
}

/**
 * Outside diameter of a conductor, mm, from its width in pixels beside a known length in the same photo, with its
 * uncertainty (standard deviation, a share of it). Null where a width or length is no positive number. Valid where both
 * lie about equally far from the camera and the length square to it.
 */
export function diameterBy(
  length: SeenLength,
  widthPx: number,
): { readonly mm: number; readonly error: number } | null {
  const mm = (length.mm * widthPx) / length.px;
  if (!(mm > 0 && Number.isFinite(mm))) return null;
  return { mm, error: Math.hypot(WIDTH_PX / widthPx, (Math.SQRT2 * TOUCH_PX) / length.px, PERSPECTIVE, TILT) };
}

/** Which size of one scale a conductor may be, as `sizesBeside`, from a known length. Valid where `diameterBy` is. */
export function sizesByLength(length: SeenLength, widthPx: number, sizes: readonly WireSize[]): SizeCandidate[] {
  const diameter = diameterBy(length, widthPx);
  return diameter ? sizesOf(diameter.mm, diameter.error ** 2 + MAKE ** 2, sizes) : [];
}

/** A width further than this from every size (standard deviations) is of a thinner or thicker conductor, or of none. */
const FARTHEST = 3;

/** How well each size fits an outside diameter, mm, whose logarithm has this variance; none where no size does. */
function sizesOf(mm: number, variance: number, sizes: readonly WireSize[]): SizeCandidate[] {
  const weights = sizes.map((size) => Math.exp((-0.5 * Math.log(OUTER_MM[size] / mm) ** 2) / variance));
  if (!(Math.max(...weights) >= Math.exp(-0.5 * FARTHEST ** 2))) return [];
  const total = weights.reduce((sum, w) => sum + w, 0);
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
