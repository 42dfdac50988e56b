import type { ColorName } from './color-name';
import type { Point, Polygon } from './geometry';
import type { Message } from './message';

export type Covering = 'insulated' | 'bare';

/** How the conductor came to be in the list. The user's finger outranks what the program found. */
export type ConductorOrigin = 'found' | 'tapped' | 'drawn';

/** What happens at an end of a traced length. */
export type EndKind = 'leaves the picture' | 'hidden' | 'terminal' | 'cut end' | 'unknown';

/** Two traced lengths meet here; which lies on top and which end continues which may be uncertain. */
export interface Crossing {
  readonly at: Point;
  /** Id of the other conductor. */
  readonly with: string;
  /** Probability that this conductor lies on top. */
  readonly overProbability: number;
  /** Probability that the link made here is right; below 0.8 the alternative is offered to the user. */
  readonly linkProbability: number;
}

/** One traced length of a conductor. All coordinates are pixels of the working image. */
export interface Conductor {
  /** Stable within the photo: same photo and settings give the same id. */
  readonly id: string;
  readonly origin: ConductorOrigin;
  readonly covering: Covering;
  /** Probability of `covering`, 0 to 1. */
  readonly coveringConfidence: number;
  /** Probability that this is a conductor at all, 0 to 1. */
  readonly presence: number;
  /** Several where something lies across it; none around stretches of what is traced that do not look like it. */
  readonly outlines: readonly Polygon[];
  /** From one end to the other. */
  readonly centerline: readonly Point[];
  /** Median width across, pixels. */
  readonly widthPx: number;
  readonly ends: readonly [EndKind, EndKind];
  readonly crossings: readonly Crossing[];
}

/**
 * A conductor straightened: `length` samples along times `across` samples over the width, linear sRGB.
 * `rgb` holds length x across x 3 values in 0 to 1, row by row along the conductor.
 * `usable` (length x across) is 0 where a sample is clipped, outside the picture or covered by something else.
 */
export interface Ribbon {
  readonly length: number;
  readonly across: number;
  /** Pixels of the working image between two samples along. */
  readonly stepPx: number;
  readonly widthPx: number;
  readonly rgb: Float32Array;
  readonly usable: Uint8Array;
  /** Standard deviation of sensor noise and compression, in linear light at mid gray. */
  readonly noise: number;
  /** Blur of the photo as standard deviation in pixels: mixes neighbors into thin conductors. */
  readonly blurPx: number;
}

/**
 * A conductor straightened finely, for what lies on it: cells as long as they are wide, rows evenly spaced from one end
 * to the other, those under something else (`usable` 0) included so that lengths stay true.
 */
export interface FineRibbon extends Ribbon {
  /** Middle of each row, pixels of the working image. */
  readonly centers: readonly Point[];
  /** Width of each row, pixels of the working image. */
  readonly widths: Float32Array;
  /** Per row, 0 where tracing took something to lie across; the pixels of such rows are there all the same. */
  readonly seen: Uint8Array;
  /** Per cell, log-odds of a conductor; null where nothing learned looked. */
  readonly wire: Float32Array | null;
  /**
   * Looks closer, which costs as much as all the rest: few conductors need it. The same look each time. Null where that is
   * not possible.
   */
  readonly closer: (() => CloserLook) | null;
}

/** What else is to be known of a straightened conductor. */
export interface CloserLook {
  /** Per cell the planes of SAID, interleaved; null where nothing learned looked. */
  readonly said: Float32Array | null;
  /** Per row BESIDE columns on the left of the conductor, then as many on the right. */
  readonly beside: Pick<Ribbon, 'rgb' | 'usable'> & Pick<FineRibbon, 'wire'> & Pick<CloserLook, 'said'>;
}

/**
 * What a learned segmentation says of a place on a straightened conductor besides how likely a conductor is: log-odds of an edge
 * between two, how well what it sees there runs along (1 along, -1 across), log of the half width that it gives over the traced
 * one, log-odds of tape and of a stripe, log-probability of the color name that it gives the whole conductor. 0 where it is silent.
 */
export const SAID = ['edge', 'way', 'width', 'tape', 'stripe', 'name'] as const;

/** Columns of cells on either side of a conductor, as wide as its own, that a closer look knows. */
export const BESIDE = 2;

export interface ColorCandidate {
  readonly name: ColorName;
  readonly probability: number;
}

/** A color is a distribution over names, never one name. */
export interface InsulationColor {
  /** Most probable name. To be shown alone only when `set` has one member. */
  readonly best: ColorName;
  /** Calibrated probability of `best`. */
  readonly confidence: number;
  /** All names with probability >= 0.005, most probable first; probabilities sum to at most 1. */
  readonly candidates: readonly ColorCandidate[];
  /** Holds the true name in 95 of 100 cases; most probable first; never empty. */
  readonly set: readonly ColorName[];
  /** Body color as seen, CIELAB D65 under the estimated light. */
  readonly lab: readonly [L: number, a: number, b: number];
  /** Why it is unsure, worst first. */
  readonly doubts: readonly Message[];
}

/** What several photos of one conductor, or several readings of it, say of its color together. */
export interface CombinedColor {
  readonly best: ColorName;
  readonly confidence: number;
  /** All names with probability >= 0.005, most probable first. */
  readonly candidates: readonly ColorCandidate[];
  readonly set: readonly ColorName[];
  /** The photos contradict each other: two conductors, or a light that one of them got wrong. */
  readonly contradicting: boolean;
}

export type StripeLayout = 'along' | 'spiral' | 'rings';

export interface Stripe {
  readonly name: ColorName;
  readonly confidence: number;
  readonly layout: StripeLayout;
  /** Along it: how many lie side by side on the seen side. Absent where that was not made out. */
  readonly count?: number;
  /** Along it: it comes and goes. */
  readonly dashed?: true;
}

/** A stretch of a traced length, as shares of it from its first end: 0 to 1. */
export type Stretch = readonly [from: number, to: number];

/** Phase tape or a colored sleeve around the insulation. The side that the camera did not see is not known. */
export interface Tape {
  readonly name: ColorName;
  /** Probability that there is tape of this color. */
  readonly confidence: number;
  readonly at: Point;
  /** Absent where nobody said how far it reaches. */
  readonly stretch?: Stretch;
  /** Share of the seen side, rim to rim, that it covers: near 1 where it goes all the way over. */
  readonly cover?: number;
  /** Names its color may have, most probable first. */
  readonly candidates?: readonly ColorCandidate[];
}

/** Bare metal at an end of an insulated conductor, or in its course. */
export interface BareStretch {
  readonly stretch: Stretch;
  /** Probability that metal shows here. */
  readonly confidence: number;
  /** Length in diameters of the insulated conductor, as seen: foreshortening makes it look shorter. */
  readonly diameters: number;
  readonly metal: 'copper' | 'tinned copper or aluminum' | 'not decided';
  /** Where it lies: at an end of what was traced, or with insulation on both sides. */
  readonly place: 'end' | 'middle';
  /** A collar sits between it and the insulation: the barrel of a ferrule looks so. */
  readonly fitting?: 'ferrule';
}

/** A trend along the length: paler and lighter toward one end. */
export interface Fading {
  /** Direction in the picture toward which it is more faded. */
  readonly toward: 'left' | 'right' | 'up' | 'down';
  /** Saturation at the faded end over that at the other, 0 to 1. */
  readonly left: number;
  /** The stretch that speaks for the color. */
  readonly cleanest: Stretch;
}

/** What was read along a conductor besides its colors. */
export interface Along {
  readonly bare: readonly BareStretch[];
  /** Where the insulation carries legend print; left out of the color. Absent in records from before it was read. */
  readonly print?: readonly Stretch[];
  readonly fading: Fading | null;
  /** Length of what was traced, in diameters, as seen. */
  readonly diameters: number;
}

/** What metal the user sees on a conductor, whatever was read. */
export const METAL_WORDS = ['none', 'stripped', 'ferrule', 'lug'] as const;
export type MetalWord = (typeof METAL_WORDS)[number];

/** What the user said of a conductor's color. Kept as the user's word, not as a measurement. */
export interface UserWord {
  readonly name: ColorName | 'not decided';
  readonly stripe?: ColorName | null;
  /** Null: no tape, whatever was read. */
  readonly tape?: ColorName | null;
  readonly metal?: MetalWord | null;
  /** Wire size as the trade writes it ("12 AWG"), where the user knows it. */
  readonly size?: string | null;
  readonly by: string;
  readonly at: string;
}

export interface NamedConductor extends Conductor {
  readonly insulation: InsulationColor;
  readonly stripe: Stripe | null;
  /** Probability that a stripe exists on the side the camera did not see, given that none was seen. */
  readonly hiddenStripe: number;
  readonly tape: readonly Tape[];
  /** Absent in records from before it was read. */
  readonly along?: Along;
  readonly userWord?: UserWord;
}

/** A thing of known color in the photo that the user tapped: strongest evidence of the light. */
export interface ColorReference {
  readonly at: Point;
  readonly kind: 'white' | 'gray' | 'known color';
  /** Needed when kind is 'known color': a tape roll or a conductor known to be new. */
  readonly name?: ColorName;
}
