import { COLOR_NAMES, type ColorName, type Role, type SiteLegendEntry, type SystemId } from '../../flow';
import type { Convention, Look, Scheme } from '../convention';
import { CONVENTIONS } from '../data/conventions';
import { SYSTEMS } from '../data/systems';
import { COLOR_INDEX } from './aging';
import { type Evidence, stripeRatio } from './evidence';
import type { Strictness } from './priors';
import { isNumbered } from './site-habit';

/** A look and how often a role has it. */
export interface Share {
  readonly look: Look;
  readonly share: number;
}

/** How conductors of a role look on a site: named looks, a spread of other colors, and bare metal. */
export interface RoleLook {
  readonly shares: readonly Share[];
  /** Shares of plain colors outside the convention, order of COLOR_NAMES. */
  readonly stray: Float64Array;
  /** Probability that the conductor has no insulation. */
  readonly bare: number;
}

/** `site legend` stands beside the schemes of the conventions. */
export type SchemeName = Scheme | 'site legend';

/** The scheme of work in cable, which comes in few colors and with a bare ground. */
export const CABLE: SchemeName = 'cable work';

const COUNT = COLOR_NAMES.length;
const GROUNDED: Role = 'grounded conductor';
const GROUND: Role = 'equipment grounding conductor';

/** First look of a convention against the next ones (assumption of ours). */
const FIRST = 0.86;
/** Lists longer than this are habits without a rule (travelers, control); each look is this much rarer than the one before. */
const LONG = 3;
const FALL = 0.65;

/**
 * Colors met on ungrounded conductors outside the convention, on a site that follows the rules and on one that does
 * not. White, gray and green are forbidden there (NEC 200.7, 250.119), gray was used in older work (200.7 note).
 * Sizes are assumptions of ours.
 */
const palette = (parts: Readonly<Partial<Record<ColorName, number>>>): Float64Array => {
  const out = new Float64Array(COUNT);
  let sum = 0;
  for (const [name, part] of Object.entries(parts) as [ColorName, number][]) {
    out[COLOR_INDEX[name]] = part;
    sum += part;
  }
  return out.map((p) => p / sum);
};
const COMMON_HOT = {
  black: 6,
  red: 5,
  blue: 4,
  brown: 2,
  orange: 2,
  yellow: 2,
  violet: 1.5,
  pink: 0.7,
  turquoise: 0.2,
};
const HOT = {
  strict: palette({ ...COMMON_HOT, gray: 2, white: 1 }),
  careless: palette({ ...COMMON_HOT, gray: 2, white: 3, green: 0.5 }),
};
const GROUNDED_STRAY = palette({ white: 5, gray: 5, black: 2, blue: 1, green: 0.5, yellow: 0.5, red: 0.5 });
const GROUND_STRAY = palette({
  green: 6,
  'green-yellow': 3,
  black: 1,
  white: 0.7,
  yellow: 0.7,
  turquoise: 0.5,
  blue: 0.3,
});
const ANYTHING = new Float64Array(COUNT).fill(1 / COUNT);

/** Share of a role that strays from its convention. */
const STRAY: Readonly<Record<Strictness, number>> = { strict: 0.012, loose: 0.02, alike: 0.02, careless: 0.33 };
/** A stripe that no convention asks for. */
const RANDOM_STRIPE = 0.01;

function usual(convention: Convention): Share[] {
  const dressed = convention.looks.filter((l) => l.color !== 'bare');
  const shares = convention.anyOf ? dressed.map(() => 1) : falling(dressed.length);
  const sum = shares.reduce((a, b) => a + b, 0);
  return dressed.map((look, k) => ({ look, share: shares[k]! / sum }));
}

/** Shares of looks listed most usual first: one plain favorite with rare others, or a long list that falls slowly. */
const falling = (n: number): number[] =>
  n > LONG
    ? Array.from({ length: n }, (_, k) => FALL ** k)
    : Array.from({ length: n }, (_, k) => (k === 0 ? FIRST : (1 - FIRST) / (n - 1)));

/** Cable has its grounding conductor bare, wire pulled into pipe mostly green (common practice; sizes are assumptions). */
const BARE_GROUND = { pulled: 0.3, cabled: 0.92 } as const;

const bareShare = (convention: Convention | undefined, role: Role, scheme: SchemeName): number =>
  convention?.looks.some((l) => l.color === 'bare')
    ? scheme === CABLE
      ? BARE_GROUND.cabled
      : BARE_GROUND.pulled
    : role === GROUNDED
      ? 0.008
      : 0.003;

const CONVENTION_OF = new Map(CONVENTIONS.map((c) => [`${c.system}/${c.scheme}/${c.role}`, c]));

const conventionFor = (system: SystemId, scheme: Scheme, role: Role): Convention | undefined =>
  CONVENTION_OF.get(`${system}/${scheme}/${role}`) ?? CONVENTION_OF.get(`${system}/habit/${role}`);

/** Schemes that the data has for a system. */
export function schemesOf(system: SystemId): readonly Scheme[] {
  const found = new Set<Scheme>(['habit']);
  for (const c of CONVENTIONS) if (c.system === system) found.add(c.scheme);
  return [...found];
}

/**
 * The look of a role of a system on a site. `legend` matters for the scheme 'site legend' only: the roles it names
 * take its color, the others keep the habit.
 */
export function roleLook(
  system: SystemId,
  scheme: SchemeName,
  role: Role,
  strictness: Strictness,
  legend: readonly SiteLegendEntry[],
): RoleLook {
  const base: Scheme = scheme === 'site legend' ? 'habit' : scheme;
  const posted = scheme === 'site legend' ? legend.filter((e) => e.system === system && e.role === role) : [];
  const convention = conventionFor(system, base, role);
  const own: Share[] =
    posted.length > 0
      ? posted.map((e) => ({
          look: e.stripe ? { color: e.color, stripe: e.stripe } : { color: e.color },
          share: 1 / posted.length,
        }))
      : convention
        ? usual(convention)
        : [];
  const stray = own.length === 0 ? 1 : STRAY[strictness];
  const told = isNumbered(role) && posted.length === 0;
  const pool = told && strictness === 'loose' ? pooled(system, base) : told && strictness === 'alike' ? ALL_BLACK : own;
  const strayPalette =
    own.length === 0
      ? ANYTHING
      : role === GROUNDED
        ? GROUNDED_STRAY
        : role === GROUND
          ? GROUND_STRAY
          : strictness === 'careless'
            ? HOT.careless
            : HOT.strict;
  return {
    shares: pool.map(({ look, share }) => ({ look, share: share * (1 - stray) })),
    stray: strayPalette.map((p) => p * stray),
    bare: bareShare(convention, role, scheme),
  };
}

/** Large conductors come in black from every maker. */
const ALL_BLACK: readonly Share[] = [{ look: { color: 'black' }, share: 1 }];

/** Looks of all numbered lines together: the color tells the system, not the phase. */
function pooled(system: SystemId, scheme: Scheme): Share[] {
  const numbered = (SYSTEMS[system]?.roles ?? []).filter(isNumbered);
  return numbered.flatMap((role) => {
    const convention = conventionFor(system, scheme, role);
    return convention ? usual(convention).map((s) => ({ look: s.look, share: s.share / numbered.length })) : [];
  });
}

/** One look without exceptions: what a coil or a bundle wears. */
export const onlyLook = (look: Look): RoleLook => ({ shares: [{ look, share: 1 }], stray: NO_STRAY, bare: 0 });
const NO_STRAY = new Float64Array(COUNT);

/** A conductor of nothing known here. */
export const FOREIGN: RoleLook = { shares: [], stray: ANYTHING, bare: 0.03 };

const UNSTRIPED = new WeakMap<Evidence, Float64Array>();

/** Ratios of all colors without a stripe, order of COLOR_NAMES: every role of every system asks for all of them. */
function unstriped(e: Evidence): Float64Array {
  const kept = UNSTRIPED.get(e);
  if (kept) return kept;
  const made = Float64Array.from(COLOR_NAMES, (name) => insulatedRatio(e, name, undefined));
  UNSTRIPED.set(e, made);
  return made;
}

function insulatedRatio(e: Evidence, color: ColorName, stripe: Look['stripe']): number {
  const body = e.body[COLOR_INDEX[color]]!;
  if (color === 'green-yellow') {
    // The reader may call the same thing a green-yellow body, green with a yellow stripe or yellow with a green one.
    const green = COLOR_INDEX.green;
    const yellow = COLOR_INDEX.yellow;
    return Math.max(
      body * Math.max(e.plain, Math.min(1, e.striped[yellow]!), Math.min(1, e.striped[green]!)),
      e.body[green]! * e.striped[yellow]!,
      e.body[yellow]! * e.striped[green]!,
    );
  }
  if (stripe) return body * stripeRatio(e, stripe, color);
  let random = 0;
  for (const s of e.striped) random += s;
  return body * ((1 - RANDOM_STRIPE) * e.plain + (RANDOM_STRIPE * random) / COUNT);
}

/** Body colors under re-identifying tape (NEC 200.6(B), 200.7(C), 250.119 speak of marking; sizes are assumptions). */
const UNDER_TAPE = {
  hot: palette({ black: 70, white: 8, red: 5, blue: 3, brown: 3, gray: 2, orange: 2, yellow: 2 }),
  grounded: palette({ black: 75, white: 10, gray: 8, red: 2, blue: 2 }),
  ground: palette({ black: 75, green: 15, 'green-yellow': 3, white: 2, red: 1 }),
} as const;

/** Tape colors outside the convention: white or gray for grounded, green for grounding (NEC 200.6(B), 250.119). */
const TAPE_STRAY = {
  grounded: palette({ white: 50, gray: 48, black: 1, red: 0.5, blue: 0.5 }),
  ground: palette({ green: 70, 'green-yellow': 25, yellow: 3, black: 1, blue: 1 }),
} as const;

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

const sum = (a: Float64Array): number => {
  let total = 0;
  for (const x of a) total += x;
  return total;
};

function tapeRatio(e: Evidence, tape: Float64Array, role: Role, look: RoleLook): number {
  const stray = role === GROUNDED ? TAPE_STRAY.grounded : role === GROUND ? TAPE_STRAY.ground : null;
  let said = stray ? dot(tape, stray) * sum(look.stray) : dot(tape, look.stray);
  for (const { look: l, share } of look.shares) if (l.color !== 'bare') said += share * tape[COLOR_INDEX[l.color]]!;
  const under = role === GROUNDED ? UNDER_TAPE.grounded : role === GROUND ? UNDER_TAPE.ground : UNDER_TAPE.hot;
  return said * dot(e.body, under);
}

/**
 * Likelihood ratio of what was seen of a conductor if it has a role with this look; 1 is an average conductor.
 * Tape outranks the insulation under it, in the measure that the tape is sure.
 */
export function lookRatio(e: Evidence, role: Role, look: RoleLook): number {
  const plain = unstriped(e);
  let dressed = 0;
  for (const { look: l, share } of look.shares) {
    if (l.color === 'bare') continue;
    dressed += share * (l.stripe ? insulatedRatio(e, l.color, l.stripe) : plain[COLOR_INDEX[l.color]]!);
  }
  for (let i = 0; i < COUNT; i++) {
    const stray = look.stray[i]!;
    if (stray > 0) dressed += stray * plain[i]!;
  }
  if (e.tape) dressed = e.taped * tapeRatio(e, e.tape, role, look) + (1 - e.taped) * dressed;
  return look.bare * e.bare + (1 - look.bare) * e.insulated * dressed;
}
