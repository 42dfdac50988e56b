import { observeScene, priorModes } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import { angleDeg } from '../../../src/color/light/statistics';
import { inferJointly } from '../../../src/color/naming/joint';
import { lostShare } from '../../../src/color/naming/lost';
import { measurementCov } from '../../../src/color/naming/measurement';
import { bodyEvidence, hearWhite } from '../../../src/color/naming/name-insulations';
import { type Quality, qualityOf } from '../../../src/color/naming/quality';
import { whiteLevelOf } from '../../../src/color/naming/white-level';
import type { Body } from '../../../src/color/ribbon/body';
import type { ColorName } from '../../../src/flow';

/** A line of models/palette/make_readings.py. */
interface SimulatedPhoto {
  lamp: string;
  cast: [number, number];
  seen: [number, number];
  anchor: number;
  paper: [number, number, number];
  bodies: { name: ColorName; rgb: [number, number, number]; width: number; blur: number; noise: number }[];
}

/** One simulated reading: what it is, and what joint naming makes of it before calibration. */
export interface Case {
  readonly truth: ColorName;
  readonly ladder: readonly Float64Array[];
  /** What clipping, noise and blur lost of it, 0 to 1. */
  readonly lost: number;
  readonly quality: Quality;
  readonly lamp: string;
  /** Number of its photo. */
  readonly photo: number;
}

/** Angular errors of the light of one photo, degrees. */
export interface LightError {
  /** Gray world and its kin as they are, without knowing that cameras white-balance. */
  readonly statistics: number;
  /** Fused with what is known of white-balanced photos. */
  readonly before: number;
  /** After all conductors were heard. */
  readonly after: number;
  /** Taken as neutral. */
  readonly neutral: number;
}

export interface Simulated {
  readonly cases: readonly Case[];
  readonly light: readonly LightError[];
  readonly msPerConductor: number;
}

const bodyOf = (b: SimulatedPhoto['bodies'][number]): Body => ({
  rgb: b.rgb,
  scatter: [0.0004, 0, 0.0004],
  count: 60,
  usable: Math.max(...b.rgb) > 0.95 ? 0.2 : 1,
  agreement: 1,
  hues: null,
  gloss: 0.5,
  highlightTint: 0.7,
  widthPx: b.width,
  blurPx: b.blur,
  noise: b.noise,
});

/** Names every conductor of simulated photos, given as JSON Lines; with `paper`, white paper was tapped in each. */
export function readCases(lines: string, paper = false): Simulated {
  const photos = lines
    .split('\n')
    .filter((l) => l.trim())
    .map((l) => JSON.parse(l) as SimulatedPhoto);
  const cases: Case[] = [];
  const light: LightError[] = [];
  const started = performance.now();
  photos.forEach((photo, k) => {
    const seen = observeScene(priorModes(), photo.seen);
    const clipped = Math.max(...photo.paper) > 0.95;
    const sheet =
      paper && !clipped ? bodyOf({ name: 'white', rgb: photo.paper, width: 30, blur: 1, noise: 0.01 }) : null;
    const modes = sheet ? hearWhite(seen, sheet) : seen;
    const whites = sheet ? [whiteLevelOf(sheet, 'white', photo.anchor)] : [];
    const estimate = summarize(modes, { basis: 'scene statistics', anchor: photo.anchor, mixedLightDeg: 0 });
    const bodies = photo.bodies.map(bodyOf);
    const { anchor } = photo;
    const result = inferJointly({ bodies, evidence: bodies.map(bodyEvidence), known: [], whites, modes, anchor });
    result.ladders.forEach((ladder, i) => {
      const quality = qualityOf(measurementCov(bodies[i]!, anchor, 1));
      const lost = lostShare(bodies[i]!);
      cases.push({ truth: photo.bodies[i]!.name, ladder, lost, quality, lamp: photo.lamp, photo: k });
    });
    light.push({
      statistics: angleDeg(photo.seen, photo.cast),
      before: angleDeg([Math.log(estimate.mean[0]), Math.log(estimate.mean[2])], photo.cast),
      after: angleDeg(result.light.mean, photo.cast),
      neutral: angleDeg([0, 0], photo.cast),
    });
  });
  return { cases, light, msPerConductor: (performance.now() - started) / Math.max(1, cases.length) };
}
