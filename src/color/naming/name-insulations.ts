import {
  COLOR_NAMES,
  type ColorName,
  type Covering,
  type InsulationColor,
  message,
  type Ribbon,
  type Stripe,
} from '../../flow';
import { observe } from '../light/estimate-light';
import { summarize } from '../light/posterior';
import type { LightMode, LightPosterior } from '../light/types';
import { SURFACES } from '../palette/likelihood';
import { PALETTE_DATA } from '../palette/palette-data';
import { type Body, ribbonBody, touchedSample } from '../ribbon/body';
import { hueSpreadEvidence } from '../ribbon/green-yellow';
import { shineEvidence } from '../ribbon/metal';
import { FAINT_SHARE, splitColors, underFinger } from '../ribbon/two-colors';
import { type Lab, labOf, type Rgb } from '../spaces';
import { conformalSet, ranked } from './calibrate';
import { CALIBRATION } from './calibration-data';
import { doubtsOf } from './doubts';
import { type Evidence, inferJointly, type KnownBody } from './joint';
import { relativeNoise } from './measurement';
import { opinionOf } from './opinion';

/** A thing of known color that the user tapped, with the pixels under the finger. */
export interface ReferenceSample {
  readonly kind: 'white' | 'gray' | 'known color';
  /** Needed when kind is 'known color'. */
  readonly name?: ColorName;
  /** Linear sRGB of the pixels, 3 values each; clipped ones left out by the caller or not at all. */
  readonly rgb: Float32Array;
}

export interface NamingOptions {
  readonly references?: readonly ReferenceSample[];
  /** Per ribbon, ln probabilities over COLOR_NAMES from a network; null where it said nothing. */
  readonly networkColor?: readonly (Float32Array | null)[];
  /** Per ribbon, probability of bare metal from a network, 0 to 1; null where it said nothing. */
  readonly networkBare?: readonly (number | null)[];
  /** Per ribbon, the pixels under the finger (linear sRGB, 3 values each) where it was tapped; null where it was found. */
  readonly touched?: readonly (Float32Array | null)[];
  /** Luminance of a fully lit white; taken from the light posterior when left out. */
  readonly anchor?: number;
}

/** What a ribbon says of its conductor. */
export interface RibbonReading {
  readonly insulation: InsulationColor;
  readonly covering: Covering;
  /** Probability of `covering`. */
  readonly coveringConfidence: number;
  readonly stripe: Stripe | null;
  /** Probability that a stripe exists on the side that was not seen. */
  readonly hiddenStripe: number;
  /** The measured body, for comparing and explaining; null when no pixel could be read. */
  readonly body: Body | null;
}

export interface NamingResult {
  readonly readings: readonly RibbonReading[];
  /** The light after references and all conductors were heard. */
  readonly light: LightPosterior;
}

/** Weight of a network's opinion against the color model: their errors are not independent. Assumed. */
const NETWORK_WEIGHT = 0.5;
/** A tapped white: paper is not perfectly neutral, and optical brighteners make it bluish. Assumed sd 0.03. */
const REFERENCE_NOISE = [0.0009, 0, 0.0012] as const;
/** Clipped or hidden samples may hide another color: at most this much of the probability goes back. Assumed. */
const CLIPPED_DOUBT = 0.08;
/** The same where all channels are cut off at white: anything pale ends there. Assumed. */
const WASHED_OUT_DOUBT = 0.4;
/** The same where noise is as large as the light: what is cut off at black has a color of its own. Assumed. */
const NOISE_DOUBT = 0.12;
/** A stripe less probable than this is not told. */
const STRIPE_TOLD = 0.4;
/** How often a single-colored insulation carries a tracer stripe at all. Assumed. */
const STRIPE_PRIOR = 0.06;

/**
 * Names the insulation of all conductors of one photo, jointly with the light they share.
 *
 * Takes straightened conductors (linear sRGB) and the light posterior of the photo; gives one reading per ribbon, in
 * the same order. Deterministic; order of ribbons does not matter. Never throws: an empty ribbon gives every name.
 * Probabilities of an insulation are those of being insulated with that name, so they sum to at most 1.
 */
export function nameInsulations(
  ribbons: readonly Ribbon[],
  light: LightPosterior,
  options: NamingOptions = {},
): NamingResult {
  const anchor = options.anchor ?? light.anchor;
  const { modes, known, basis } = hearReferences(light, options.references ?? []);

  const splits = ribbons.map((ribbon) => splitColors(ribbon));
  const bodies: Body[] = [];
  const owner: { base: number; second: number }[] = ribbons.map((ribbon, i) => {
    const finger = options.touched?.[i];
    const touched = finger ? touchedSample(finger) : null;
    const split = touched && splits[i] ? underFinger(splits[i], touched) : splits[i];
    splits[i] = split ?? null;
    const base = split ? split.base : ribbonBody(ribbon, touched ?? undefined);
    const place = { base: -1, second: -1 };
    if (base) place.base = bodies.push(base) - 1;
    if (split) place.second = bodies.push(split.second) - 1;
    return place;
  });
  const evidence = bodies.map(bodyEvidence);
  owner.forEach((place, i) => {
    const said = options.networkColor?.[i];
    if (place.base < 0) return;
    if (said) addNetwork(evidence[place.base]!, said);
    const bare = options.networkBare?.[i];
    if (bare !== null && bare !== undefined) addBare(evidence[place.base]!, bare);
  });
  const result = inferJointly({ bodies, evidence, known, modes, anchor });
  const opinions = result.ladders.map((ladder) => opinionOf(ladder, CALIBRATION.temperature));
  const after = summarize([result.light], { basis, anchor, mixedLightDeg: light.mixedLightDeg });

  const readings = ribbons.map((ribbon, i): RibbonReading => {
    const { base, second } = owner[i]!;
    const body = bodies[base];
    if (base < 0 || !body) return unread();
    const split = splits[i];
    const other = split && second >= 0 ? opinions[second]! : null;
    const own = opinions[base]!;
    const bare = own.bare;
    let names = dilute(own.names, lostShare(body));
    let stripe: Stripe | null = null;
    if (split && other) {
      const secondNames = other.names;
      const pair = names.green * secondNames.yellow + names.yellow * secondNames.green;
      const enough = split.share >= 0.2;
      if (enough && pair > 0.3) names = merge(names, pair);
      else {
        names = blend(names, secondNames, mayBeBase(split.share) * split.trust);
        const top = ranked(secondNames)[0]!;
        const same = top.name === ranked(own.names)[0]!.name;
        const confidence = top.probability * clarity(split.contrast) * split.trust;
        if (!same && confidence > STRIPE_TOLD) stripe = { name: top.name, confidence, layout: split.layout };
      }
    }
    if (!split && names.green > 0.3) names = withFaintYellow(names, ribbon, result.light, anchor);
    const lab = bodyLab(body, after.mean, anchor);
    const all = ranked(names);
    const set = conformalSet(all);
    const insulation: InsulationColor = {
      best: all[0]!.name,
      confidence: all[0]!.probability,
      candidates: all.filter((c) => c.probability >= 0.005),
      set,
      lab,
      doubts: doubtsOf(body, after, all, set.length),
    };
    return {
      insulation,
      covering: bare > 0.5 ? 'bare' : 'insulated',
      coveringConfidence: Math.max(bare, 1 - bare),
      stripe,
      hiddenStripe: stripe ? 0 : STRIPE_PRIOR * unseen(ribbon),
      body,
    };
  });
  return { readings, light: after };
}

/** How much of the evidence was lost to clipping and noise, 0 to 1. */
function lostShare(body: Body): number {
  const lost = 1 - body.usable;
  const paleness = Math.min(...body.rgb) / Math.max(1e-4, ...body.rgb);
  const washedOut = Math.min(1, Math.max(0, (paleness - 0.4) / 0.5));
  return (
    CLIPPED_DOUBT * lost + WASHED_OUT_DOUBT * lost * lost * washedOut + NOISE_DOUBT * Math.min(1, relativeNoise(body))
  );
}

/** Names mixed with their usual shares: what is left of them when a part of the evidence was lost. */
function dilute(names: Record<ColorName, number>, share: number): Record<ColorName, number> {
  const mass = COLOR_NAMES.reduce((sum, name) => sum + names[name], 0);
  const out = { ...names };
  for (const name of COLOR_NAMES) out[name] = (1 - share) * names[name] + share * mass * PALETTE_DATA[name].prior;
  return out;
}

/** What a body's shine and size say of each surface, as ln factors. */
export const bodyEvidence = (body: Body): Evidence =>
  Float64Array.from(SURFACES, (surface) => shineEvidence(surface, body) + hueSpreadEvidence(surface, body));

/** Two clusters 2.6 spreads apart may still be dirt; at 6 they are surely two colors. */
const clarity = (contrast: number): number => Math.min(1, 0.5 + (contrast - 2.6) / 7);

/** Share of straight and spiral stripes that a visible stretch of this length would miss. Assumed half and half. */
const unseen = (ribbon: Ribbon): number => {
  const diameters = (ribbon.length * ribbon.stepPx) / Math.max(1, ribbon.widthPx);
  return 0.5 * 0.5 + 0.5 * Math.exp(-diameters / 6);
};

/**
 * Green on which a little yellow shows may be green-yellow with a stripe of wide pitch, or green with something yellow
 * before it: even chances. Without this a stripe that just falls short of being seen makes a sure "green".
 */
function withFaintYellow(names: Record<ColorName, number>, ribbon: Ribbon, light: LightMode, anchor: number) {
  const faint = splitColors(ribbon, FAINT_SHARE);
  if (!faint) return names;
  const { second } = faint;
  const alone = { bodies: [second], evidence: [bodyEvidence(second)], known: [], modes: [light], anchor };
  const [ladder] = inferJointly(alone).ladders;
  const moved = 0.5 * names.green * opinionOf(ladder!, CALIBRATION.temperature).names.yellow;
  return { ...names, green: names.green - moved, 'green-yellow': names['green-yellow'] + moved };
}

/** From this share on, the second color may be the base, seen on a short stretch of a spiral. Assumed. */
const BROAD = 0.3;

/** Probability that the color which covers less of what is seen is the base all the same: even at half and half. */
const mayBeBase = (share: number): number => Math.min(0.5, Math.max(0, (0.5 * (share - BROAD)) / (0.5 - BROAD)));

function blend(names: Record<ColorName, number>, others: Record<ColorName, number>, share: number) {
  const entries = COLOR_NAMES.map((name) => [name, (1 - share) * names[name] + share * others[name]]);
  return Object.fromEntries(entries) as Record<ColorName, number>;
}

function merge(names: Record<ColorName, number>, pair: number): Record<ColorName, number> {
  const out = { ...names };
  for (const name of COLOR_NAMES) out[name] *= 1 - pair;
  out['green-yellow'] += pair;
  return out;
}

/**
 * A network's opinion as a likelihood ratio against its own even prior over names. It says nothing of bare metal,
 * whose factor stays 1: a sure network speaks for insulation, an undecided one for neither.
 */
function addNetwork(target: Evidence, said: Float32Array): void {
  SURFACES.forEach((surface, c) => {
    const k = COLOR_NAMES.indexOf(surface as ColorName);
    if (k >= 0) target[c]! += NETWORK_WEIGHT * (Math.max(-6, said[k]!) + Math.log(COLOR_NAMES.length));
  });
}

function addBare(target: Evidence, probability: number): void {
  const p = Math.min(0.98, Math.max(0.02, probability));
  SURFACES.forEach((surface, c) => {
    if (surface === 'copper' || surface === 'tinned') target[c]! += NETWORK_WEIGHT * Math.log(p / (1 - p));
  });
}

/** Linear sRGB body to CIELAB D65 with the light divided out and white at the anchor. */
function bodyLab(body: Body, light: Rgb, anchor: number): Lab {
  return labOf([body.rgb[0] / light[0] / anchor, body.rgb[1] / light[1] / anchor, body.rgb[2] / light[2] / anchor]);
}

function hearReferences(light: LightPosterior, references: readonly ReferenceSample[]) {
  let modes: readonly LightMode[] = light.modes;
  const known: KnownBody[] = [];
  for (const reference of references) {
    const body = sampleBody(reference.rgb);
    if (!body) continue;
    if (reference.kind === 'known color') {
      if (reference.name) known.push({ body, name: reference.name });
    } else {
      const [r, g, b] = body.rgb;
      // A cast this strong is outside the white-balanced prior: widen it so that the reference can speak.
      const open = modes.map((m): LightMode => ({ ...m, cov: [m.cov[0] + 0.02, m.cov[1], m.cov[2] + 0.03] }));
      modes = observe(open, [Math.log(r / g), Math.log(b / g)], REFERENCE_NOISE);
    }
  }
  return { modes, known, basis: references.length > 0 ? ('reference in the shot' as const) : light.basis };
}

function sampleBody(rgb: Float32Array): Body | null {
  const count = Math.floor(rgb.length / 3);
  if (count === 0) return null;
  const one: Ribbon = {
    length: count,
    across: 1,
    stepPx: 1,
    widthPx: 30,
    rgb,
    usable: new Uint8Array(count).fill(1),
    noise: 0.01,
    blurPx: 1,
  };
  return ribbonBody(one);
}

function unread(): RibbonReading {
  const p = 1 / COLOR_NAMES.length;
  return {
    insulation: {
      best: COLOR_NAMES[0],
      confidence: p,
      candidates: COLOR_NAMES.map((name) => ({ name, probability: p })),
      set: [...COLOR_NAMES],
      lab: [50, 0, 0],
      doubts: [message('color.doubt.empty')],
    },
    covering: 'insulated',
    coveringConfidence: 0.5,
    stripe: null,
    hiddenStripe: STRIPE_PRIOR,
    body: null,
  };
}
