import type { Sample } from './samples';

/** A place in (a/L, b/L, log2 Y). */
interface Place {
  readonly s: number;
  readonly t: number;
  readonly z: number;
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

const place = (p: Sample): Place => ({ s: p.s, t: p.t, z: Math.log2(p.y + 1e-4) });

/** Squared distances in chroma and in light, in widths of one body; the darker and noisier, the wider it is. */
function apart(p: Place, q: Place, noise: number): { chroma: number; light: number } {
  const y = 2 ** Math.min(p.z, q.z);
  const relative = (Math.max(LEAST_NOISE, noise) * Math.sqrt(Math.max(0.02, y) / 0.2)) / y;
  const chroma = CHROMA ** 2 + (CHROMA_PER_NOISE * relative) ** 2;
  const light = STOPS ** 2 + (1.44 * relative) ** 2;
  return { chroma: ((p.s - q.s) ** 2 + (p.t - q.t) ** 2) / chroma, light: (p.z - q.z) ** 2 / light };
}

function near(p: Place, q: Place, noise: number): boolean {
  const d = apart(p, q, noise);
  return d.chroma + d.light < 1;
}

/**
 * The samples that belong to the ribbon's main color: mean shift from places spread over the samples, the fullest mode
 * wins. `noise` is the standard deviation in linear light at mid gray. A touched color draws the choice to the mode it
 * belongs to. Never empty for a non-empty input.
 */
export function mainColor(samples: readonly Sample[], noise: number, touched?: Sample): Sample[] {
  const places = samples.map(place);
  const starts: Place[] = [];
  for (let k = 0; k < STARTS; k++) starts.push(places[Math.floor(((k + 0.5) / STARTS) * places.length)]!);
  if (touched) starts.push(place(touched));
  let best = { score: -1, at: starts[0]! };
  for (const start of starts) {
    let at = start;
    let count = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const sum = { s: 0, t: 0, z: 0 };
      count = 0;
      for (const p of places) {
        if (!near(p, at, noise)) continue;
        sum.s += p.s;
        sum.t += p.t;
        sum.z += p.z;
        count++;
      }
      if (count === 0) break;
      at = { s: sum.s / count, t: sum.t / count, z: sum.z / count };
    }
    let score = count;
    if (touched) {
      const d = apart(place(touched), at, noise);
      score *= Math.exp(-d.chroma / 2 - d.light / 3);
    }
    if (score > best.score) best = { score, at };
  }
  const members = samples.filter((_, k) => near(places[k]!, best.at, noise));
  return members.length > 0 ? members : [...samples];
}
