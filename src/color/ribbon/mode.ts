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

/** The darker and noisier a place is, the wider one body is there. */
function placeAt(s: number, t: number, z: number, noise: number): Place {
  const y = 2 ** z;
  const relative = (Math.max(LEAST_NOISE, noise) * Math.sqrt(Math.max(0.02, y) / 0.2)) / y;
  return {
    s,
    t,
    z,
    chroma: CHROMA ** 2 + (CHROMA_PER_NOISE * relative) ** 2,
    light: STOPS ** 2 + (1.44 * relative) ** 2,
  };
}

const placeOf = (p: Sample, noise: number): Place => placeAt(p.s, p.t, Math.log2(p.y + 1e-4), noise);

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

/**
 * The samples that belong to the ribbon's main color: mean shift from places spread over the samples, the fullest mode
 * wins. `noise` is the standard deviation in linear light at mid gray. A touched color draws the choice to the mode it
 * belongs to. Never empty for a non-empty input.
 */
export function mainColor(samples: readonly Sample[], noise: number, touched?: Sample): Sample[] {
  const places = samples.map((p) => placeOf(p, noise));
  const starts: Place[] = [];
  for (let k = 0; k < STARTS; k++) starts.push(places[Math.floor(((k + 0.5) / STARTS) * places.length)]!);
  if (touched) starts.push(placeOf(touched, noise));
  let best = { score: -1, at: starts[0]! };
  for (const start of starts) {
    let at = start;
    let count = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const sum = { s: 0, t: 0, z: 0 };
      count = 0;
      for (const p of places) {
        if (!near(p, at)) continue;
        sum.s += p.s;
        sum.t += p.t;
        sum.z += p.z;
        count++;
      }
      if (count === 0) break;
      const next = placeAt(sum.s / count, sum.t / count, sum.z / count, noise);
      const settled = next.s === at.s && next.t === at.t && next.z === at.z;
      at = next;
      if (settled) break;
    }
    let score = count;
    if (touched) {
      const finger = placeOf(touched, noise);
      score *= Math.exp(-chromaApart(finger, at) / 2 - lightApart(finger, at) / 3);
    }
    if (score > best.score) best = { score, at };
  }
  const members = samples.filter((_, k) => near(places[k]!, best.at));
  return members.length > 0 ? members : [...samples];
}
