import type { Sample } from './samples';

/** A place in (a/L, b/L, log2 Y), and how far from it samples of one body may lie there (squared widths). */
interface Place {
  readonly s: number;
  readonly t: number;
  readonly z: number;
  readonly chroma: number;
  readonly light: number;
}

/**
 * Two samples of one body: their chroma differs by noise, dirt and bounce, their light by shading. In OKLab saturation
 * units and stops. Assumed.
 */
const CHROMA = 0.045;
const STOPS = 2;
/** Noise that compression leaves where the sensor's own is nil, as a share of mid gray. Assumed, about 0.5 levels. */
const LEAST_NOISE = 0.003;
/** OKLab saturation moves by about this much for a relative change of one channel. From its definition. */
const CHROMA_PER_NOISE = 0.6;
const STARTS = 12;
const ROUNDS = 4;

/** Light is in stops of luminance and a little: black has no logarithm. */
const LEAST_LIGHT = 1e-4;

/** The darker and noisier a place is, the wider one body is there. `light` is 2 to the power of z. */
function placeAt(s: number, t: number, z: number, light: number, noise: number): Place {
  const relative = (Math.max(LEAST_NOISE, noise) * Math.sqrt(Math.max(0.02, light) / 0.2)) / light;
  return {
    s,
    t,
    z,
    chroma: CHROMA ** 2 + (CHROMA_PER_NOISE * relative) ** 2,
    light: STOPS ** 2 + (1.44 * relative) ** 2,
  };
}

function placeOf({ s, t, y }: Sample, noise: number): Place {
  const light = y + LEAST_LIGHT;
  return placeAt(s, t, Math.log2(light), light, noise);
}

/** Squared distance in chroma, in widths of one body: that of the darker of the two. */
const chromaApart = (p: Place, q: Place): number =>
  ((p.s - q.s) ** 2 + (p.t - q.t) ** 2) / Math.max(p.chroma, q.chroma);
/** The same in light. */
const lightApart = (p: Place, q: Place): number => (p.z - q.z) ** 2 / Math.max(p.light, q.light);

const near = (p: Place, q: Place): boolean => chromaApart(p, q) + lightApart(p, q) < 1;

/** Whether samples could be of a body that looks like `color`. `noise` as in `mainColor`. */
export function ofColor(color: Sample, noise: number): (sample: Sample) => boolean {
  const place = placeOf(color, noise);
  return (sample) => near(placeOf(sample, noise), place);
}

/** The places of many samples, side by side: all are gone over up to fifty times. */
interface Places {
  readonly s: Float64Array;
  readonly t: Float64Array;
  readonly z: Float64Array;
  readonly chroma: Float64Array;
  readonly light: Float64Array;
}

function placesOf(samples: readonly Sample[], noise: number): Places {
  const column = (): Float64Array => new Float64Array(samples.length);
  const places = { s: column(), t: column(), z: column(), chroma: column(), light: column() };
  for (let k = 0; k < samples.length; k++) {
    const { s, t, z, chroma, light } = placeOf(samples[k]!, noise);
    places.s[k] = s;
    places.t[k] = t;
    places.z[k] = z;
    places.chroma[k] = chroma;
    places.light[k] = light;
  }
  return places;
}

/** `near` of the sample with the index k. */
function isNear(places: Places, k: number, q: Place): boolean {
  const ds = places.s[k]! - q.s;
  const dt = places.t[k]! - q.t;
  const apart = ds * ds + dt * dt;
  const width = Math.max(places.chroma[k]!, q.chroma);
  // Apart in chroma alone: nothing that light adds would make them near.
  if (apart >= width) return false;
  const dz = places.z[k]! - q.z;
  return apart / width + (dz * dz) / Math.max(places.light[k]!, q.light) < 1;
}

/** What one step of the mean shift found: how many samples lie near a place, and their mean (null without any). */
interface Shift {
  readonly from: Place;
  readonly count: number;
  readonly to: Place | null;
}

const isAt = (p: Place, q: Place): boolean => p.s === q.s && p.t === q.t && p.z === q.z;

function shiftFrom(from: Place, places: Places, noise: number): Shift {
  // One by one: sums that begin in an array literal are kept boxed by engines, a new object for each addition.
  let s = 0;
  let t = 0;
  let z = 0;
  let count = 0;
  for (let k = 0; k < places.s.length; k++) {
    if (!isNear(places, k, from)) continue;
    s += places.s[k]!;
    t += places.t[k]!;
    z += places.z[k]!;
    count++;
  }
  return { from, count, to: count === 0 ? null : placeAt(s / count, t / count, z / count, 2 ** (z / count), noise) };
}

/**
 * The samples that belong to the ribbon's main color: mean shift from places spread over the samples, the fullest mode
 * wins. `noise` is the standard deviation in linear light at mid gray. A touched color draws the choice to the mode it
 * belongs to. Never empty for a non-empty input.
 */
export function mainColor(samples: readonly Sample[], noise: number, touched?: Sample): Sample[] {
  const places = placesOf(samples, noise);
  const finger = touched && placeOf(touched, noise);
  const starts: Place[] = [];
  for (let k = 0; k < STARTS; k++)
    starts.push(placeOf(samples[Math.floor(((k + 0.5) / STARTS) * samples.length)]!, noise));
  if (finger) starts.push(finger);
  // Most starts soon walk the same way: where one stood, the next is not worked out again.
  const shifts: Shift[] = [];
  const shift = (from: Place): Shift => {
    const known = shifts.find((one) => isAt(one.from, from));
    if (known) return known;
    const found = shiftFrom(from, places, noise);
    shifts.push(found);
    return found;
  };
  let best = { score: -1, at: starts[0]! };
  for (const start of starts) {
    let at = start;
    let count = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const step = shift(at);
      count = step.count;
      if (!step.to) break;
      const settled = isAt(step.to, at);
      at = step.to;
      if (settled) break;
    }
    const drawn = finger ? Math.exp(-chromaApart(finger, at) / 2 - lightApart(finger, at) / 3) : 1;
    const score = count * drawn;
    if (score > best.score) best = { score, at };
  }
  const members = samples.filter((_, k) => isNear(places, k, best.at));
  return members.length > 0 ? members : [...samples];
}
