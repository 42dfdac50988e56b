import {
  type Along,
  COLOR_NAMES,
  type ColorName,
  type Covering,
  type FineRibbon,
  type InsulationColor,
  message,
  type Point,
  type Ribbon,
  type Stripe,
  type Tape,
} from '../../flow';
import { observe } from '../light/estimate-light';
import { lightChangeDeg } from '../light/light-change';
import { summarize } from '../light/posterior';
import type { LightMode, LightPosterior } from '../light/types';
import { SURFACES } from '../palette/likelihood';
import { type Body, ribbonBody, touchedSample } from '../ribbon/body';
import { hueSpreadEvidence } from '../ribbon/green-yellow';
import { hiddenStripe } from '../ribbon/hidden-stripe';
import type { StripeMark } from '../ribbon/marks';
import { shineEvidence } from '../ribbon/metal';
import { type Sight, sightOf } from '../ribbon/sight';
import { FAINT_SHARE, splitColors } from '../ribbon/two-colors';
import { type Lab, labOf, type Rgb } from '../spaces';
import { alongOf, tapesOf } from './along';
import { calibratedOpinion, conformalSet, ranked } from './calibrate';
import { doubtsOf } from './doubts';
import { type Evidence, inferJointly, type KnownBody, type WhiteLevel } from './joint';
import { lostShare } from './lost';
import { measurementCov } from './measurement';
import { blend, eachName, type Names } from './names';
import type { Opinion } from './opinion';
import { qualityOf } from './quality';
import { whiteLevelOf } from './white-level';

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
  /** Per ribbon, the same conductor straightened finely, for what lies along it; null where it is not at hand. */
  readonly fine?: readonly (FineRibbon | null)[];
  /** Per ribbon, where the finger lies, pixels of the working image; null where it was found. */
  readonly fingers?: readonly (Point | null)[];
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
  readonly tape: readonly Tape[];
  /** Null where the ribbon was not looked at finely. */
  readonly along: Along | null;
  /** What the finger touches, where that is not the insulation but tape on it. */
  readonly touched: InsulationColor | null;
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
/** A stripe less probable than this is not told. */
const STRIPE_TOLD = 0.4;

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
  const { modes, known, whites, basis } = hearReferences(light, options.references ?? [], anchor);

  const bodies: Body[] = [];
  const put = (body: Body | null | undefined): number => (body ? bodies.push(body) - 1 : -1);
  const owner = ribbons.map((ribbon, i) => {
    const pixels = options.touched?.[i];
    const touched = pixels ? touchedSample(pixels) : null;
    const sight = sightOf(ribbon, options.fine?.[i] ?? null, touched && { touched, at: options.fingers?.[i] ?? null });
    const base = put(sight.base);
    const second = put(sight.split?.second ?? sight.stripe?.body);
    return {
      sight,
      base,
      second,
      tapes: sight.tapes.map((t) => put(t.body)),
      bare: sight.bare.map((t) => put(t.body)),
    };
  });
  const evidence = bodies.map(bodyEvidence);
  owner.forEach((place, i) => {
    const said = options.networkColor?.[i];
    if (place.base < 0) return;
    if (said) addNetwork(evidence[place.base]!, said);
    const bare = options.networkBare?.[i];
    if (bare !== null && bare !== undefined) addBare(evidence[place.base]!, bare);
  });
  const result = inferJointly({ bodies, evidence, known, whites, modes, anchor });
  const opinions = result.ladders.map((ladder, k) => calibratedOpinion(ladder, lostShare(bodies[k]!)));
  const after = summarize([result.light], { basis, anchor, ...lampsOf(light, options.fine ?? []) });

  const readings = ribbons.map((ribbon, i): RibbonReading => {
    const { sight, base, second, tapes, bare: metals } = owner[i]!;
    const body = bodies[base];
    if (base < 0 || !body) return unread();
    const own = opinions[base]!;
    const bare = own.bare;
    const other = second < 0 ? null : opinions[second]!;
    const { names: told, stripe } = withSecond(sight, own.names, other);
    const faint = !other && told.green > 0.3;
    const plain = faint ? withFaintYellow(told, ribbon, result.light, anchor) : told;
    const names = stripe ? plain : withOpenStripe(plain, sight.marks?.striped ?? 0);
    const colorOf = (k: number, seen: Names): InsulationColor => insulationOf(bodies[k]!, seen, after, anchor);
    const fine = options.fine?.[i];
    const insulation = colorOf(base, names);
    const onTape = sight.touchedTape >= 0 ? tapes[sight.touchedTape]! : -1;
    return {
      insulation: sight.allTape
        ? { ...insulation, doubts: [message('color.doubt.taped'), ...insulation.doubts] }
        : insulation,
      covering: bare > 0.5 ? 'bare' : 'insulated',
      coveringConfidence: Math.max(bare, 1 - bare),
      stripe,
      hiddenStripe: stripe ? 0 : hiddenStripe(diametersOf(ribbon), missedStripe(sight, body)),
      tape: fine
        ? tapesOf(
            fine,
            sight.tapes,
            tapes.map((k) => opinions[k]!),
          )
        : [],
      along:
        fine && sight.marks
          ? alongOf(
              fine,
              sight,
              metals.map((k) => bodies[k]!),
              after,
            )
          : null,
      touched: onTape < 0 ? null : colorOf(onTape, opinions[onTape]!.names),
      body,
    };
  });
  return { readings, light: after };
}

/** What a body's shine and size say of each surface, as ln factors. */
export const bodyEvidence = (body: Body): Evidence =>
  Float64Array.from(SURFACES, (surface) => shineEvidence(surface, body) + hueSpreadEvidence(surface, body));

/** Two clusters 2.6 spreads apart may still be dirt; at 6 they are surely two colors. */
const clarity = (contrast: number): number => Math.min(1, 0.5 + (contrast - 2.6) / 7);

const diametersOf = (ribbon: Ribbon): number => (ribbon.length * ribbon.stepPx) / Math.max(1, ribbon.widthPx);

/** Probability that a stripe on the seen side went unnoticed: what the reader leaves open, and all of it when thin or dark. */
function missedStripe({ marks }: Sight, body: Body): number {
  const thin = Math.min(1, Math.max(0, 1 - (body.widthPx - 4) / 12));
  return Math.min(1, (marks ? 0.1 + marks.striped : 0.25) + thin);
}

/** What a second color makes of a reading: green-yellow, a stripe, or nothing. */
function withSecond(
  { split, stripe, backed }: Sight,
  names: Names,
  other: Opinion | null,
): { names: Names; stripe: Stripe | null } {
  if (!other || !(split || stripe)) return { names, stripe: null };
  const second = other.names;
  const pair = names.green * second.yellow + names.yellow * second.green;
  // Beside the rim the yellow of a green one is as often a yellow neighbor.
  const sure = stripe ? stripe.mark.confidence : (split?.trust ?? 1);
  const enough = stripe !== null || (split !== null && split.share >= 0.2);
  const told = stripe || !split ? sure : clarity(split.contrast) * split.trust;
  // Less than a stripe's usual share: green-yellow as far as it is one at all, or else the base with something on it.
  if (pair > 0.3) return { names: merge(names, pair * (enough ? sure : told)), stripe: null };
  const different = stripe ? unlike(second, names) : second;
  const top = different && ranked(different)[0]!;
  const kept = blend(names, second, otherBase(split, stripe));
  // A stripe of the color that the insulation most likely has is none.
  const same = !top || top.name === ranked(kept)[0]!.name || top.name === ranked(names)[0]!.name;
  if (same) return { names: kept, stripe: null };
  const layout = stripe?.mark.layout ?? split?.layout ?? 'along';
  const confidence = top.probability * told;
  // What does not go on along the conductor is a neighbor, dirt, or another conductor that the trace ran onto.
  const goesOn = stripe ? stripe.mark.recurs : (split?.recurs ?? false);
  const isTold = backed && goesOn && confidence > STRIPE_TOLD;
  return {
    names: kept,
    stripe: isTold ? { name: top.name, confidence, layout, ...linesOf(stripe?.mark ?? split) } : null,
  };
}

/**
 * Probability that the second color is the insulation's own after all: a broad one may be, and where the reader's stripe is
 * none, two things lie side by side, of which either may be meant.
 */
function otherBase(split: Sight['split'], stripe: Sight['stripe']): number {
  if (!stripe) return split ? mayBeBase(split.share) * split.trust : 0;
  const { share, confidence } = stripe.mark;
  return confidence * mayBeBase(share) + (1 - confidence) * share;
}

/** Below this probability that body and stripe differ in name, the reader took the body's own shading for a stripe. Assumed. */
const LEAST_UNLIKE = 0.1;

/** Names of a stripe on a body: of its own color it would be none. Null where hardly anything else is left. */
function unlike(second: Readonly<Names>, names: Readonly<Names>): Names | null {
  const parts = eachName((name) => second[name] * (1 - names[name]));
  const sum = COLOR_NAMES.reduce((total, name) => total + parts[name], 0);
  return sum < LEAST_UNLIKE ? null : eachName((name) => parts[name] / sum);
}

/** What is worth telling of stripes along: several of them, dashes. */
function linesOf(mark: Pick<StripeMark, 'layout' | 'lines'> | null): Pick<Stripe, 'count' | 'dashed'> {
  if (mark?.layout !== 'along') return {};
  const { count, dashed } = mark.lines;
  return { ...(count > 1 ? { count } : {}), ...(dashed ? { dashed } : {}) };
}

/** Conductors tell one lamp from two better than the picture's parts, and once for all. */
function lampsOf(
  { mixedLightDeg, toldByConductors, flash }: LightPosterior,
  fines: readonly (FineRibbon | null)[],
): Pick<LightPosterior, 'mixedLightDeg' | 'toldByConductors' | 'flash'> {
  const lamp = flash ? ({ flash } as const) : {};
  if (toldByConductors !== undefined) return { mixedLightDeg, toldByConductors, ...lamp };
  const change = lightChangeDeg(fines);
  return { mixedLightDeg: change ?? mixedLightDeg, toldByConductors: change !== null, ...lamp };
}

function insulationOf(body: Body, names: Names, light: LightPosterior, anchor: number): InsulationColor {
  const all = ranked(names);
  const set = conformalSet(all, qualityOf(measurementCov(body, anchor, 1)));
  return {
    best: all[0]!.name,
    confidence: all[0]!.probability,
    candidates: all.filter((c) => c.probability >= 0.005),
    set,
    lab: bodyLab(body, light.mean, anchor),
    doubts: doubtsOf(body, light, all, set.length),
  };
}

/**
 * Green on which a little yellow shows may be green-yellow with a stripe of wide pitch, or green with something yellow
 * before it: even chances. Without this a stripe that just falls short of being seen makes a sure "green".
 */
function withFaintYellow(names: Names, ribbon: Ribbon, light: LightMode, anchor: number) {
  const faint = splitColors(ribbon, FAINT_SHARE);
  if (!faint) return names;
  const { second } = faint;
  const alone = { bodies: [second], evidence: [bodyEvidence(second)], known: [], modes: [light], anchor };
  const [ladder] = inferJointly(alone).ladders;
  const moved = 0.5 * names.green * calibratedOpinion(ladder!, lostShare(second)).names.yellow;
  return { ...names, green: names.green - moved, 'green-yellow': names['green-yellow'] + moved };
}

/** Readers give plain conductors up to this probability of a stripe. Assumed. */
const PLAIN_STRIPED = 0.15;

/**
 * A stripe may be seen whose color cannot be told from the insulation's: on yellow and on green it is most often the other of
 * the two. Even chances, as far as it is surer than what readers say of many a plain one. Without this such a protective
 * conductor makes a sure "yellow".
 */
export function withOpenStripe(names: Names, striped: number): Names {
  const share = (0.5 * Math.max(0, striped - PLAIN_STRIPED)) / (1 - PLAIN_STRIPED);
  const moved = share * (names.yellow + names.green);
  return {
    ...names,
    yellow: (1 - share) * names.yellow,
    green: (1 - share) * names.green,
    'green-yellow': names['green-yellow'] + moved,
  };
}

/** From this share on, the second color may be the base, seen on a short stretch of a spiral. Assumed. */
const BROAD = 0.3;

/** Probability that the color which covers less of what is seen is the base all the same: even at half and half. */
const mayBeBase = (share: number): number => Math.min(0.5, Math.max(0, (0.5 * (share - BROAD)) / (0.5 - BROAD)));

function merge(names: Names, pair: number): Names {
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

/** The light after something neutral was tapped. */
export function hearWhite(modes: readonly LightMode[], { rgb: [r, g, b] }: Body): LightMode[] {
  // A cast this strong is outside the white-balanced prior: widen it so that the reference can speak.
  const open = modes.map((m): LightMode => ({ ...m, cov: [m.cov[0] + 0.02, m.cov[1], m.cov[2] + 0.03] }));
  return observe(open, [Math.log(r / g), Math.log(b / g)], REFERENCE_NOISE);
}

function hearReferences(light: LightPosterior, references: readonly ReferenceSample[], anchor: number) {
  let modes: readonly LightMode[] = light.modes;
  const known: KnownBody[] = [];
  const whites: WhiteLevel[] = [];
  for (const reference of references) {
    const body = sampleBody(reference.rgb);
    if (!body) continue;
    if (reference.kind === 'known color') {
      if (reference.name) known.push({ body, name: reference.name });
    } else {
      whites.push(whiteLevelOf(body, reference.kind, anchor));
      modes = hearWhite(modes, body);
    }
  }
  return { modes, known, whites, basis: references.length > 0 ? ('reference in the shot' as const) : light.basis };
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
    hiddenStripe: hiddenStripe(0, 1),
    tape: [],
    along: null,
    touched: null,
    body: null,
  };
}
