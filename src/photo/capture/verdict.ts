import { angleBetween, type LightPosterior, twoLamps } from '../../color';
import {
  type CaptureMeasures,
  type CaptureVerdict,
  type CaptureVerdictKind,
  type Message,
  message,
  type PhotoFacts,
  type Raster,
} from '../../flow';
import { edgeSpread } from './edge-spread';
import { exposure } from './exposure';
import { luma, quantile } from './luma';
import { noiseLevel } from './noise';

interface Doubt {
  readonly verdict: Exclude<CaptureVerdictKind, 'good'>;
  /** How far past its bound: orders the reasons, worst first. */
  readonly weight: number;
  readonly reason: Message;
}

/** Bounds where a reading of color gets doubtful (`limited`) and worthless (`retake`). Judgement, no source. */
const BOUNDS = {
  blurPx: { limited: 2, retake: 5 },
  /** Never worse than limited: a burnt-out background spoils no conductor. */
  clippedShare: { limited: 0.2, retake: Number.POSITIVE_INFINITY },
  /** What the brightest thirtieth reaches, so that a dark background does not count; lower is worse. */
  litLuminance: { limited: 0.08, retake: 0.015 },
  /** Levels at mid gray. */
  noiseLevel: { limited: 8, retake: 24 },
  castDeg: { limited: 9, retake: 25 },
  /** Shortest side of the photo in pixels; lower is worse. */
  shortSide: { limited: 300, retake: 0 },
  /** Median width of the conductors, working pixels; lower is worse. */
  conductorPx: { limited: 6, retake: 3 },
} as const;

/** sRGB level of an 18 % gray card. */
const MID_GRAY = 118;

const KIND_ORDER = { good: 0, limited: 1, retake: 2 } as const;

function above(value: number, bound: { limited: number; retake: number }, reason: Message): Doubt[] {
  if (!(value >= bound.limited)) return [];
  return [{ verdict: value >= bound.retake ? 'retake' : 'limited', weight: value / bound.limited, reason }];
}

function below(value: number, bound: { limited: number; retake: number }, reason: Message): Doubt[] {
  if (!(value < bound.limited)) return [];
  return [
    { verdict: value < bound.retake ? 'retake' : 'limited', weight: bound.limited / Math.max(value, 1e-6), reason },
  ];
}

const percent = (share: number): number => Math.round(share * 100);
const tenth = (value: number): number => Math.round(value * 10) / 10;

/**
 * Is this photo fit for reading colors, and what should be done about it? Pure: pixels and facts in, words out.
 * Without a light estimate the light is taken as neutral, and no cast and no second lamp is reported. A picture with too few edges
 * to judge its focus gets `blurPx` 0 and no word about blur. Blur and noise are measured in `detail`: a piece at
 * working size where `raster` is a smaller copy of the whole (live view).
 */
export function captureVerdict(
  raster: Raster,
  facts: PhotoFacts,
  light?: LightPosterior,
  detail: Raster = raster,
): CaptureVerdict {
  const plane = luma(detail);
  const noise = noiseLevel(plane, detail.width, detail.height);
  const spread = edgeSpread(plane, detail.width, detail.height, noise);
  const mean = light?.mean ?? [1, 1, 1];
  const measures: CaptureMeasures = {
    blurPx: Number.isNaN(spread) ? 0 : spread,
    ...exposure(raster),
    noiseLevel: noise,
    castDeg: angleBetween(mean, [1, 1, 1]),
    mixedLightDeg: light?.mixedLightDeg ?? 0,
  };
  const { blurPx, clippedShare, litLuminance, noiseLevel: grain, castDeg } = measures;
  // The same grain drowns a dark picture and hardly shows in a bright one: take it as it would stand at mid gray.
  const litLevel = 255 * litLuminance ** (1 / 2.2);
  const grainAtMidGray = grain * Math.max(1, MID_GRAY / Math.max(litLevel, 1));
  const darkBecause = facts.flashFired === false ? 'photo.capture.dark-no-flash' : 'photo.capture.dark';
  const doubts = [
    ...above(blurPx, BOUNDS.blurPx, message('photo.capture.blurred', { px: tenth(blurPx) })),
    ...above(
      clippedShare,
      BOUNDS.clippedShare,
      message(facts.flashFired ? 'photo.capture.clipped-flash' : 'photo.capture.clipped', {
        percent: percent(clippedShare),
      }),
    ),
    ...below(litLuminance, BOUNDS.litLuminance, message(darkBecause)),
    ...above(grainAtMidGray, BOUNDS.noiseLevel, message('photo.capture.noisy')),
    ...above(castDeg, BOUNDS.castDeg, message('photo.capture.cast', { deg: Math.round(castDeg) })),
    ...(light && twoLamps(light) ? [{ verdict: 'limited' as const, weight: 1, reason: mixedLightReason(light) }] : []),
    ...below(
      Math.min(facts.width, facts.height),
      BOUNDS.shortSide,
      message('photo.capture.few-pixels', { width: facts.width, height: facts.height }),
    ),
    ...(facts.animated ? [{ verdict: 'limited' as const, weight: 1, reason: message('photo.capture.animated') }] : []),
  ];
  return sum(measures, doubts);
}

const mixedLightReason = ({ flash }: LightPosterior): Message =>
  message(flash ? 'photo.capture.mixed-light-flash' : 'photo.capture.mixed-light');

/**
 * The verdict once the light is settled: whether two lamps meet is told better by the conductors than by the parts of the
 * picture, and the word about it comes or goes with that.
 */
export function withSettledLight(verdict: CaptureVerdict, light: LightPosterior): CaptureVerdict {
  const reason = mixedLightReason(light);
  const measures = { ...verdict.measures, mixedLightDeg: light.mixedLightDeg };
  const others = verdict.reasons.filter((r) => r.code !== reason.code);
  const said = others.length < verdict.reasons.length;
  if (twoLamps(light))
    return {
      verdict: verdict.verdict === 'good' ? 'limited' : verdict.verdict,
      reasons: said ? verdict.reasons : [...verdict.reasons, reason],
      measures,
    };
  return { verdict: others.length === 0 ? 'good' : verdict.verdict, reasons: others, measures };
}

/** The verdict of a picture that turned out to be a drawing or a screen: nothing in it can be read as a conductor. */
export const ofDrawing = (verdict: CaptureVerdict): CaptureVerdict => ({
  ...verdict,
  verdict: 'retake',
  reasons: [message('photo.capture.drawn'), ...verdict.reasons],
});

function sum(measures: CaptureMeasures, doubts: readonly Doubt[]): CaptureVerdict {
  const ordered = [...doubts].sort((a, b) => KIND_ORDER[b.verdict] - KIND_ORDER[a.verdict] || b.weight - a.weight);
  return { verdict: ordered[0]?.verdict ?? 'good', reasons: ordered.map((d) => d.reason), measures };
}

/**
 * The verdict with the widths of the conductors found (working pixels) taken into account: their median
 * decides (strips that are no conductor are mostly narrow), and blur counts against width (a conductor less than three blurs wide is mostly its neighbors' color).
 * With no conductor found the verdict stays as it is.
 */
export function withConductorWidths(verdict: CaptureVerdict, widthsPx: readonly number[]): CaptureVerdict {
  const median = quantile(
    widthsPx.filter((w) => w > 0),
    0.5,
  );
  if (Number.isNaN(median)) return verdict;
  const clear = Math.min(median, (median / Math.max(verdict.measures.blurPx, 0.5)) * 1.5);
  const [doubt] = below(clear, BOUNDS.conductorPx, message('photo.capture.thin', { px: Math.round(median) }));
  if (!doubt) return verdict;
  const worse = KIND_ORDER[doubt.verdict] > KIND_ORDER[verdict.verdict];
  return {
    ...verdict,
    verdict: worse ? doubt.verdict : verdict.verdict,
    reasons: worse ? [doubt.reason, ...verdict.reasons] : [...verdict.reasons, doubt.reason],
  };
}
