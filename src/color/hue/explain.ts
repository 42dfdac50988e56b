import { COLOR_NAMES, type ColorName } from '../../flow';
import { momentsOf } from '../light/posterior';
import type { LightPosterior } from '../light/types';
import { featuresUnder, measurementCov } from '../naming/measurement';
import { PALETTE_DATA } from '../palette/palette-data';
import type { Body } from '../ribbon/body';
import { srgbOf } from '../spaces';

/** A place in the hue plane: OKLab a/L to the right, b/L up. Neutral is (0, 0); shading does not move a color. */
export interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/** An ellipse by its half axes and the angle of the first, radians counterclockwise from x. */
export interface PlaneEllipse extends PlanePoint {
  readonly long: number;
  readonly short: number;
  readonly angle: number;
}

export interface HuePicture {
  /** Where the reading lies, with the region that holds it in 95 of 100 cases. */
  readonly reading: PlaneEllipse;
  /** Where each name usually lies (95 % region of simulated readings), with a color to draw it in (sRGB 0 to 1). */
  readonly names: readonly (PlaneEllipse & { readonly name: ColorName; readonly srgb: readonly number[] })[];
  /** Largest |x| and |y| worth drawing. */
  readonly extent: number;
}

/** sqrt of the 95 % quantile of chi-square with two degrees of freedom. */
const R95 = Math.sqrt(5.991);

function ellipse(x: number, y: number, xx: number, xy: number, yy: number): PlaneEllipse {
  const middle = (xx + yy) / 2;
  const root = Math.hypot((xx - yy) / 2, xy);
  return {
    x,
    y,
    long: R95 * Math.sqrt(middle + root),
    short: R95 * Math.sqrt(Math.max(0, middle - root)),
    angle: 0.5 * Math.atan2(2 * xy, xx - yy),
  };
}

/** How far an ellipse reaches from the middle of the plane, along either axis. */
function reachOf({ x, y, long, short, angle }: PlaneEllipse): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return Math.max(Math.abs(x) + Math.hypot(long * c, short * s), Math.abs(y) + Math.hypot(long * s, short * c));
}

/** The picture for the hue check: the reading among the names. The light's uncertainty is part of the reading's region. */
export function huePicture(body: Body, light: LightPosterior): HuePicture {
  const { mean, cov } = momentsOf(light.modes);
  const at = featuresUnder(body, mean, light.anchor);
  const m = measurementCov(body, light.anchor, 1);
  const step = 0.01;
  const du = featuresUnder(body, [mean[0] + step, mean[1]], light.anchor);
  const dv = featuresUnder(body, [mean[0], mean[1] + step], light.anchor);
  const ju = [(du[0] - at[0]) / step, (du[1] - at[1]) / step] as const;
  const jv = [(dv[0] - at[0]) / step, (dv[1] - at[1]) / step] as const;
  const add = (i: 0 | 1, j: 0 | 1): number =>
    ju[i] * ju[j] * cov[0] + (ju[i] * jv[j] + jv[i] * ju[j]) * cov[1] + jv[i] * jv[j] * cov[2];
  const reading = ellipse(at[0], at[1], m[0] + add(0, 0), m[1] + add(0, 1), m[3] + add(1, 1));
  const names = COLOR_NAMES.map((name) => {
    const { parts, center } = PALETTE_DATA[name];
    let x = 0;
    let y = 0;
    for (const p of parts) {
      x += p[0] * p[1];
      y += p[0] * p[2];
    }
    let xx = 0;
    let xy = 0;
    let yy = 0;
    for (const p of parts) {
      xx += p[0] * (p[4] + (p[1] - x) ** 2);
      xy += p[0] * (p[5] + (p[1] - x) * (p[2] - y));
      yy += p[0] * (p[7] + (p[2] - y) ** 2);
    }
    return { name, srgb: srgbOf(center), ...ellipse(x, y, xx, xy, yy) };
  });
  const extent = Math.max(...[reading, ...names].map(reachOf));
  return { reading, names, extent };
}
