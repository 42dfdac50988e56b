import type { Raster } from '../../flow';
import { type Cov2, logNormal2, logSum } from '../gaussian';
import { whiteOf } from './bright-end';
import { chromaLight } from './chroma-net';
import { castOf, LAMPS } from './lamps';
import { mixedLightDeg } from './mixed-light';
import { momentsOf, summarize } from './posterior';
import {
  brightPixels,
  grayEdge,
  type LogRatio,
  rgbOfRatio,
  shadesOfGray,
  type Thumb,
  thumbOf,
  whole,
} from './statistics';
import type { LightMode, LightPosterior } from './types';

/**
 * How far the light of a white-balanced JPEG strays from neutral, as covariance of (ln r/g, ln b/g).
 * Along the daylight locus r/g and b/g move against each other. Widths are assumed: about 2.5 degrees along and
 * 1.2 across, against the 1.1 to 1.4 degrees median that good automatic white balance reaches (constancy.json).
 */
const NEUTRAL: Cov2 = [0.0075, -0.0058, 0.0095];
/** A lamp that the camera corrected only in part (mixed light, greedy white balance). Assumed. */
const LAMP_SHARE = 0.12;
const LEFT_OVER = [0.25, 0.5] as const;
/**
 * A camera that balanced for a lamp which is not there, or was fooled by large colored surfaces: this share, with this many
 * times the variance of a good balance. Without such a tail an honest reading of bluish light counts as a failure of the
 * reading, and red becomes a sure violet. Assumed.
 */
const ASTRAY = { share: 0.1, times: 6 } as const;
const LAMP_WIDTH: Cov2 = [0.01, -0.004, 0.014];
/**
 * What a flash is like: electronic flash lies about D55 (ISO 7589, from memory), phones' LEDs about there. Where it does
 * not reach, lamps of the place have this share. Assumed.
 */
const FLASH_LIKE = ['D50', 'D65'] as const;
const PLACE_SHARE = 0.03;
/**
 * Error of the fused scene statistics. Shades of gray and gray edge have means of 4.9 and 5.3 degrees and worst
 * quarters of 10 (Gehler-Shi, constancy.json); close-ups of conductors break the gray world further, so twice that
 * variance is assumed. One degree is about 0.037 in one log ratio.
 */
const STATISTICS: Cov2 = [0.075, -0.03, 0.095];

/**
 * The estimators fail together where a scene has one colored surface: their worst quarter is twice their mean
 * (constancy.json), which no single Gaussian has. This share of the scenes errs with this many times the variance. Assumed.
 */
const FAILING = { share: 0.35, times: 6 } as const;

/**
 * The network's error is that on simulated pictures (models/palette/train_light.py: squared error over the variance said,
 * 0.94 on held-out ones). Photos differ from them: this many times the variance. Assumed.
 */
const REAL = 2;
/** Share of the photos on which it fails as the statistics do (`FAILING`). It says its own doubt of each, so fewer. Assumed. */
const REAL_FAILING = 0.12;

/** The mean of the estimators that could be computed: their errors are strongly correlated, so no more is made of their number. */
function fuse(thumb: Thumb): LogRatio | null {
  const found = [shadesOfGray, grayEdge, brightPixels]
    .map((estimate) => estimate(thumb, whole(thumb)))
    .filter((at): at is LogRatio => at !== null);
  if (found.length === 0) return null;
  return [0, 1].map((k) => found.reduce((sum, at) => sum + at[k]!, 0) / found.length) as unknown as LogRatio;
}

/** Partly corrected lamps as modes, with `share` of the probability in all. */
function lampModes(names: readonly string[], share: number): LightMode[] {
  const each = share / (names.length * LEFT_OVER.length);
  return names
    .map((name) => castOf(LAMPS[name]!))
    .flatMap((cast) =>
      LEFT_OVER.map((k): LightMode => ({ weight: each, mean: [cast[0] * k, cast[1] * k], cov: LAMP_WIDTH })),
    );
}

/**
 * Prior: mostly neutral, now and then far off, with partly corrected lamps as modes. With the camera's own flash the lamp
 * is known, and the camera balanced for it: what is left over is mostly that of the lamps a flash is like.
 */
export function priorModes(flash = false): LightMode[] {
  const all = Object.keys(LAMPS);
  const modes = flash
    ? [...lampModes(FLASH_LIKE, LAMP_SHARE - PLACE_SHARE), ...lampModes(all, PLACE_SHARE)]
    : lampModes(all, LAMP_SHARE);
  const balanced = 1 - LAMP_SHARE;
  return [
    { weight: balanced * (1 - ASTRAY.share), mean: [0, 0], cov: NEUTRAL },
    { weight: balanced * ASTRAY.share, mean: [0, 0], cov: widened(NEUTRAL, ASTRAY.times) },
    ...modes,
  ];
}

/** A mixture after one Gaussian observation. */
export function observe(modes: readonly LightMode[], at: LogRatio, noise: Cov2): LightMode[] {
  const logs: number[] = [];
  const updated = modes.map((mode) => {
    const [xx, xy, yy] = mode.cov;
    const s: Cov2 = [xx + noise[0], xy + noise[1], yy + noise[2]];
    const dx = at[0] - mode.mean[0];
    const dy = at[1] - mode.mean[1];
    logs.push(Math.log(mode.weight) + logNormal2(dx, dy, s));
    const det = s[0] * s[2] - s[1] * s[1];
    const k00 = (xx * s[2] - xy * s[1]) / det;
    const k01 = (xy * s[0] - xx * s[1]) / det;
    const k10 = (xy * s[2] - yy * s[1]) / det;
    const k11 = (yy * s[0] - xy * s[1]) / det;
    return {
      mean: [mode.mean[0] + k00 * dx + k01 * dy, mode.mean[1] + k10 * dx + k11 * dy] as const,
      cov: [xx - k00 * xx - k01 * xy, xy - k00 * xy - k01 * yy, yy - k10 * xy - k11 * yy] as const,
    };
  });
  const total = logSum(logs);
  return updated.map((mode, i) => ({ ...mode, weight: Math.exp(logs[i]! - total) })).filter((m) => m.weight > 1e-4);
}

const widened = (cov: Cov2, times: number): Cov2 => [cov[0] * times, cov[1] * times, cov[2] * times];

/** A mixture after scene statistics of an error, which now and then fail. */
export function observeScene(
  modes: readonly LightMode[],
  at: LogRatio,
  error: Cov2 = STATISTICS,
  share: number = FAILING.share,
): LightMode[] {
  const { times } = FAILING;
  const wide = widened(error, times);
  const said = (noise: Cov2, weight: number): { modes: LightMode[]; log: number } => ({
    modes: observe(modes, at, noise),
    log: Math.log(weight) + evidence(modes, at, noise),
  });
  const ways = [said(error, 1 - share), said(wide, share)];
  const total = logSum(ways.map((w) => w.log));
  return ways
    .flatMap((w) => w.modes.map((m) => ({ ...m, weight: m.weight * Math.exp(w.log - total) })))
    .filter((m) => m.weight > 1e-4);
}

/** ln of how probable an observation is under a mixture. */
const evidence = (modes: readonly LightMode[], at: LogRatio, noise: Cov2): number =>
  logSum(
    modes.map(
      ({ weight, mean, cov }) =>
        Math.log(weight) +
        logNormal2(at[0] - mean[0], at[1] - mean[1], [cov[0] + noise[0], cov[1] + noise[1], cov[2] + noise[2]]),
    ),
  );

/**
 * The light on a photo, from its pixels and whether the camera's flash fired (undefined where the file does not say). Takes upright sRGB pixels of any size (subsampled; a few
 * milliseconds). The photo is assumed to have been white-balanced by the camera: the prior is tight around neutral.
 * Never throws; a black or empty picture gives the prior with basis 'assumed neutral'.
 */
export function estimateLight(raster: Raster, flashFired?: boolean): LightPosterior {
  const thumb = thumbOf(raster);
  const at = fuse(thumb);
  const prior = priorModes(flashFired);
  const byStatistics = at ? observeScene(prior, at) : prior;
  const learned = chromaLight(thumb);
  const modes = learned
    ? observeScene(byStatistics, learned.at, widened(learned.cov, REAL), REAL_FAILING)
    : byStatistics;
  return summarize(modes, {
    basis: at ? 'scene statistics' : 'assumed neutral',
    anchor: whiteOf(thumb),
    mixedLightDeg: at ? mixedLightDeg(raster, rgbOfRatio(momentsOf(modes).mean)) : 0,
    ...(flashFired ? { flash: true } : {}),
  });
}
