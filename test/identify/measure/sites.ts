import type { ColorName, NamedConductor, Role, SiteKnowledge, SystemId, TagWord } from '../../../src/flow';
import { conductor, site } from '../make';
import type { Random } from '../random';

/**
 * Invented sites with known roles. Every number here is an assumption, written down so that it can be argued with;
 * none is taken from the engine's own priors, and circuits are pulled one by one as an electrician would, which the
 * engine does not know.
 */
export interface InventedSite {
  readonly conductors: readonly NamedConductor[];
  readonly knowledge: SiteKnowledge;
  /** What each conductor would look like to a perfect eye. */
  readonly looks: Readonly<Record<string, string>>;
  /** True system and role by conductor id. */
  readonly truth: Readonly<Record<string, { readonly system: SystemId; readonly role: Role }>>;
}

type Look = { readonly color: ColorName; readonly stripe?: ColorName } | 'bare';
type Wardrobe = Readonly<Partial<Record<Role, Look>>>;

const N: Role = 'grounded conductor';
const G: Role = 'equipment grounding conductor';
const look = (color: ColorName): Look => ({ color });

const ABC: readonly Role[] = ['phase A', 'phase B', 'phase C'];
const dress = (lines: readonly Role[], colors: readonly ColorName[], neutral?: ColorName): Wardrobe => ({
  ...Object.fromEntries(lines.map((role, i) => [role, look(colors[i]!)])),
  ...(neutral ? { [N]: look(neutral) } : {}),
});

interface Supply {
  readonly system: SystemId;
  readonly lines: readonly Role[];
  readonly wardrobe: Wardrobe;
  readonly variants?: readonly Wardrobe[];
}

const SUPPLIES: Readonly<Record<string, Supply>> = {
  single: {
    system: 'us-120-240-1ph',
    lines: ['line 1', 'line 2'],
    wardrobe: dress(['line 1', 'line 2'], ['black', 'red'], 'white'),
  },
  wye208: {
    system: 'us-208y120',
    lines: ABC,
    wardrobe: dress(ABC, ['black', 'red', 'blue'], 'white'),
    variants: [dress(ABC, ['red', 'black', 'blue'], 'white')],
  },
  wye480: {
    system: 'us-480y277',
    lines: ABC,
    wardrobe: dress(ABC, ['brown', 'orange', 'yellow'], 'gray'),
    variants: [dress(ABC, ['brown', 'violet', 'yellow'], 'gray'), dress(ABC, ['brown', 'orange', 'yellow'], 'white')],
  },
  highLeg: {
    system: 'us-240-120-high-leg',
    lines: ['phase A', 'high leg', 'phase C'],
    wardrobe: dress(['phase A', 'high leg', 'phase C'], ['black', 'orange', 'blue'], 'white'),
    variants: [dress(['phase A', 'high leg', 'phase C'], ['black', 'orange', 'red'], 'white')],
  },
  delta480: { system: 'us-480-delta', lines: ABC, wardrobe: dress(ABC, ['brown', 'orange', 'yellow']) },
  isolated: {
    system: 'us-isolated-power',
    lines: ['isolated conductor 1', 'isolated conductor 2'],
    wardrobe: {
      'isolated conductor 1': { color: 'orange', stripe: 'violet' },
      'isolated conductor 2': { color: 'brown', stripe: 'violet' },
    },
  },
  dc: { system: 'us-dc', lines: ['positive', 'negative'], wardrobe: dress(['positive', 'negative'], ['red', 'black']) },
};
const SUPPLY_NAMES = ['single', 'wye208', 'wye480', 'highLeg', 'delta480', 'isolated', 'dc'] as const;
const SUPPLY_WEIGHTS = [30, 32, 24, 5, 2, 4, 3];

interface Made {
  readonly system: SystemId;
  readonly role: Role;
  look: Look;
  tape?: ColorName;
  space?: number;
  circuit: number;
}

/** One circuit: all lines (60 %), or a random few; its neutral where the system has one (80 %); its ground (70 %). */
function pull(r: Random, supply: Supply, wardrobe: Wardrobe, circuit: number): Made[] {
  const count = r.chance(0.6) ? supply.lines.length : 1 + r.below(supply.lines.length);
  const start = r.below(supply.lines.length);
  const lines = supply.lines.filter((_, i) => (i - start + supply.lines.length) % supply.lines.length < count);
  const roles: Role[] = [...lines];
  if (wardrobe[N] && (lines.length === 1 || r.chance(0.8))) roles.push(N);
  if (r.chance(0.7)) roles.push(G);
  return roles.map((role) => ({
    system: supply.system,
    role,
    circuit,
    look: role === G ? (r.chance(0.2) ? 'bare' : look(r.chance(0.9) ? 'green' : 'green-yellow')) : wardrobe[role]!,
  }));
}

function circuits(r: Random, supply: Supply, wardrobe: Wardrobe, count: number, first: number): Made[] {
  return Array.from({ length: count }, (_, k) => pull(r, supply, wardrobe, first + k)).flat();
}

const someSupply = (r: Random): Supply => SUPPLIES[SUPPLY_NAMES[r.weighted(SUPPLY_WEIGHTS)]!]!;
/** 1 circuit half of the time, 2 a quarter, 3 to 6 otherwise. */
const someCount = (r: Random): number => [1, 2, 3, 4, 5, 6][r.weighted([50, 25, 10, 7, 5, 3])]!;

/** How the camera sees it. `true colors`: one name, surely. `camera`: a calibrated reading with a rival name. */
export type Sight = 'true colors' | 'camera';

const RIVALS: Readonly<Record<ColorName, readonly ColorName[]>> = {
  black: ['brown', 'blue', 'gray'],
  brown: ['red', 'black', 'orange'],
  red: ['brown', 'orange', 'pink'],
  orange: ['red', 'yellow', 'brown'],
  yellow: ['orange', 'white', 'green-yellow'],
  green: ['blue', 'turquoise', 'black'],
  blue: ['gray', 'violet', 'black'],
  violet: ['blue', 'gray', 'pink'],
  gray: ['white', 'blue', 'black'],
  white: ['gray', 'yellow', 'pink'],
  pink: ['red', 'white', 'violet'],
  turquoise: ['blue', 'green', 'gray'],
  'green-yellow': ['green', 'yellow', 'white'],
};

/** A calibrated reading: a name given p is the true one with probability p, since truth and rival change places. */
function readColor(r: Random, truth: ColorName, sight: Sight): Partial<Record<ColorName, number>> {
  if (sight === 'true colors') return { [truth]: 1 };
  const rival = r.pick(RIVALS[truth]);
  const p = r.chance(0.6) ? 0.97 + 0.03 * r.next() : 0.55 + 0.44 * r.next();
  return r.chance(p) ? { [truth]: p, [rival]: 1 - p } : { [rival]: p, [truth]: 1 - p };
}

const LETTERS: readonly TagWord[] = ['A', 'B', 'C'];

function photograph(
  r: Random,
  made: readonly Made[],
  sight: Sight,
  knowledge: Partial<SiteKnowledge> = {},
  /** The user has said which conductors belong together. */
  tie?: 'circuit' | 'cable' | 'tag',
  /** The user has read the tags, of which this share is wrong. */
  tagsWrong?: number,
): InventedSite {
  // Ids are dealt out at random so that they carry nothing.
  const shuffled = made.map((m) => ({ m, key: r.next() })).sort((a, b) => a.key - b.key);
  const truth: Record<string, { system: SystemId; role: Role }> = {};
  const looks: Record<string, string> = {};
  const spaces: Record<string, number> = {};
  const tied = new Map<number, string[]>();
  const tags: Record<string, TagWord> = {};
  const conductors = shuffled.map(({ m }, i) => {
    const id = `c${i}`;
    tied.set(m.circuit, [...(tied.get(m.circuit) ?? []), id]);
    truth[id] = { system: m.system, role: m.role };
    looks[id] = m.look === 'bare' ? 'bare' : (m.tape ?? (m.look.stripe ? `${m.look.color} striped` : m.look.color));
    if (m.space !== undefined) spaces[id] = m.space;
    const tag = ABC.indexOf(m.role);
    if (tagsWrong !== undefined && tag >= 0) {
      tags[id] = LETTERS[r.chance(tagsWrong) ? (tag + 1 + r.below(2)) % 3 : tag]!;
    }
    const bare = m.look === 'bare';
    const seen = m.look === 'bare' ? { brown: 0.6, orange: 0.4 } : readColor(r, m.look.color, sight);
    const stripe = m.look === 'bare' ? undefined : m.look.stripe;
    // The camera sees three stripes in four; the reader knows that it may have missed one.
    const found = stripe !== undefined && (sight === 'true colors' || r.chance(0.75));
    return conductor(id, seen, {
      covering: bare ? 'bare' : 'insulated',
      coveringConfidence: 0.97,
      stripe: found ? { name: stripe, confidence: 0.95, layout: 'along' } : null,
      hiddenStripe: found ? 0 : sight === 'true colors' ? 0.005 : 0.027,
      tape: m.tape ? [{ name: m.tape, confidence: 0.95, at: [0, 0] }] : [],
    });
  });
  const groups = tie ? [...tied.values()].map((ids) => ({ kind: tie, conductors: ids })) : [];
  return {
    conductors,
    looks,
    truth,
    knowledge: site({
      groups,
      ...knowledge,
      spaces: { ...spaces, ...knowledge.spaces },
      ...(tagsWrong === undefined ? {} : { tags }),
    }),
  };
}

const namesOf = (made: readonly Made[]): SystemId[] => [...new Set(made.map((m) => m.system))];

function oneSystem(r: Random): Made[] {
  const supply = someSupply(r);
  return circuits(r, supply, supply.wardrobe, someCount(r), 0);
}

const colorsOf = (s: Supply): string[] => s.lines.map((role) => JSON.stringify(s.wardrobe[role]));
const alike = (a: Supply, b: Supply): boolean => colorsOf(a).filter((c) => colorsOf(b).includes(c)).length >= 2;

function twoSystems(r: Random): Made[] {
  const first = r.chance(0.7) ? SUPPLIES.wye208! : someSupply(r);
  let second = r.chance(0.7) ? SUPPLIES.wye480! : someSupply(r);
  // A site that follows practice (and NEC 210.5(C)) has no two systems that nothing tells apart.
  while (second === first || alike(first, second)) second = someSupply(r);
  const a = circuits(r, first, first.wardrobe, someCount(r), 0);
  return [...a, ...circuits(r, second, second.wardrobe, someCount(r), 100)];
}

/** Colors of bad work on an ungrounded conductor. */
const WRONG: readonly ColorName[] = ['black', 'red', 'blue', 'brown', 'orange', 'yellow', 'white', 'gray', 'violet'];
const FADED: Readonly<Partial<Record<ColorName, ColorName>>> = {
  red: 'pink',
  white: 'yellow',
  gray: 'white',
  violet: 'gray',
  orange: 'yellow',
  black: 'gray',
};

function spoil(r: Random, made: Made[]): Made[] {
  for (const m of made) {
    if (m.look === 'bare') continue;
    if (m.role !== N && m.role !== G && r.chance(0.3)) m.look = look(r.pick(WRONG));
    else if (m.role === N && r.chance(0.1)) m.look = look(r.pick(['white', 'gray', 'black'] as const));
    else if (r.chance(0.05)) m.look = look(FADED[m.look.color] ?? m.look.color);
  }
  return made;
}

/** Black feeders marked with tape at the ends. */
function feeder(r: Random): Made[] {
  const supply = r.chance(0.5) ? SUPPLIES.wye208! : SUPPLIES.wye480!;
  const made = circuits(r, supply, supply.wardrobe, 1 + r.below(2), 0);
  return made.map((m) => (m.look === 'bare' ? m : { ...m, tape: m.look.color, look: look('black') }));
}

/** Box with switch legs and travelers beside one 120 V circuit. */
function switchBox(r: Random): Made[] {
  const made = pull(r, SUPPLIES.single!, SUPPLIES.single!.wardrobe, 0).filter((m) => m.role !== 'line 2');
  if (!made.some((m) => m.role === 'line 1')) {
    made.push({ system: 'us-120-240-1ph', role: 'line 1', circuit: 0, look: look('black') });
  }
  const add = (role: Role, colors: readonly ColorName[]) =>
    made.push({ system: 'us-switch-legs', role, circuit: 0, look: look(r.pick(colors)) });
  if (r.chance(0.6)) for (let k = 0; k < 2; k++) add('traveler', ['red', 'black', 'blue', 'violet', 'yellow']);
  add('switch leg', ['red', 'black', 'blue', 'yellow', 'pink']);
  return made;
}

/**
 * The same in cable: two-wire from the supply and to the lamp, three-wire to the other switch where there is one.
 * Which two-wire cable is which no color tells.
 */
function cabledSwitchBox(r: Random): Made[] {
  const cableOf = (circuit: number, roles: readonly (readonly [SystemId, Role, ColorName])[]): Made[] => [
    ...roles.map(([system, role, color]): Made => ({ system, role, circuit, look: look(color) })),
    { system: 'us-120-240-1ph', role: G, circuit, look: 'bare' },
  ];
  const white = ['us-120-240-1ph', N, 'white'] as const;
  const made = [
    ...cableOf(0, [['us-120-240-1ph', 'line 1', 'black'], white]),
    ...cableOf(1, [['us-switch-legs', 'switch leg', 'black'], white]),
  ];
  if (r.chance(0.6)) {
    made.push(...cableOf(2, [['us-switch-legs', 'traveler', 'black'], ['us-switch-legs', 'traveler', 'red'], white]));
  }
  return made;
}

/** A panel whose spaces the user gave: one conductor per space, now and then two swapped. */
function panel(r: Random, swapped: boolean): Made[] {
  const supply = r.chance(0.6) ? SUPPLIES.wye208! : SUPPLIES.wye480!;
  const made: Made[] = Array.from({ length: 6 + r.below(7) }, (_, k) => {
    const role = supply.lines[Math.floor(k / 2) % 3]!;
    return { system: supply.system, role, circuit: k, look: supply.wardrobe[role]!, space: k + 1 };
  });
  if (swapped) {
    // Two conductors landed on each other's space: their true phase is that of the space.
    const a = r.below(made.length);
    const b = (a + 2) % made.length;
    [made[a]!.look, made[b]!.look] = [made[b]!.look, made[a]!.look];
  }
  return made;
}

/** Any line on any phase: number tags tell. */
function numbered(r: Random): Made[] {
  const supply = r.chance(0.6) ? SUPPLIES.wye208! : SUPPLIES.wye480!;
  const made = circuits(r, supply, supply.wardrobe, 1 + r.below(2), 0);
  const groups = new Map<number, Made[]>();
  for (const m of made) if (m.role !== N && m.role !== G) groups.set(m.circuit, [...(groups.get(m.circuit) ?? []), m]);
  for (const list of groups.values()) {
    const looks = list.map((m) => m.look);
    for (let i = looks.length - 1; i > 0; i--) {
      const j = r.below(i + 1);
      [looks[i], looks[j]] = [looks[j]!, looks[i]!];
    }
    list.forEach((m, i) => {
      m.look = looks[i]!;
    });
  }
  return made;
}

/** A coil, a bundle or the tails of one role: 2 to 20 conductors that all are the same thing. */
function bundle(r: Random): Made[] {
  const supply = someSupply(r);
  const role = r.pick([...supply.lines, ...(supply.wardrobe[N] ? [N] : [])]);
  return Array.from({ length: 2 + r.below(19) }, (_, circuit) => ({
    system: supply.system,
    role,
    circuit,
    look: supply.wardrobe[role]!,
  }));
}

/** Circuits whose lines are all black; number tags tell the phases. */
function blackLines(r: Random): Made[] {
  const supply = r.chance(0.6) ? SUPPLIES.wye208! : SUPPLIES.wye480!;
  const made = circuits(r, supply, supply.wardrobe, 1 + r.below(3), 0);
  return made.map((m) => (m.role === N || m.role === G ? m : { ...m, look: look('black') }));
}

/** Residential cable: black and white in two-wire cable on either line, black and red in three-wire cable. */
function cable(r: Random): Made[] {
  return Array.from({ length: someCount(r) }, (_, circuit): Made[] => {
    const three = r.chance(0.25);
    const swap = r.chance(0.3);
    const lines: Role[] = three ? ['line 1', 'line 2'] : [r.chance(0.5) ? 'line 1' : 'line 2'];
    const hots = lines.map((role, i): Made => {
      const black = three ? (i === 0) !== swap : true;
      return { system: 'us-120-240-1ph', role, circuit, look: look(black ? 'black' : 'red') };
    });
    const rest: Made[] = [
      { system: 'us-120-240-1ph', role: N, circuit, look: look('white') },
      { system: 'us-120-240-1ph', role: G, circuit, look: 'bare' },
    ];
    return [...hots, ...rest];
  }).flat();
}

function variant(r: Random): Made[] {
  const supply = r.pick([SUPPLIES.wye480!, SUPPLIES.highLeg!, SUPPLIES.wye208!]);
  return circuits(r, supply, r.pick(supply.variants!), someCount(r), 0);
}

export interface Scenario {
  readonly name: string;
  /** Share in the mixed population, percent; 0: a question of its own. */
  readonly share: number;
  readonly make: (r: Random) => InventedSite;
}

/** Sites whose phases color does not tell; how many there are nobody has counted, so the measure tries several shares. */
export const BY_TAG = 'phase by number tag, true colors';

export const SCENARIOS: readonly Scenario[] = [
  { name: 'practice, one system, true colors', share: 16, make: (r) => photograph(r, oneSystem(r), 'true colors') },
  {
    name: 'practice, one system named by the user, true colors',
    share: 10,
    make: (r) => {
      const made = oneSystem(r);
      return photograph(r, made, 'true colors', { systems: namesOf(made) });
    },
  },
  { name: 'residential cable, camera', share: 8, make: (r) => photograph(r, cable(r), 'camera') },
  { name: 'practice, one system, camera', share: 20, make: (r) => photograph(r, oneSystem(r), 'camera') },
  { name: 'practice, two systems, true colors', share: 6, make: (r) => photograph(r, twoSystems(r), 'true colors') },
  { name: 'practice, two systems, camera', share: 8, make: (r) => photograph(r, twoSystems(r), 'camera') },
  { name: 'taped feeders, camera', share: 5, make: (r) => photograph(r, feeder(r), 'camera') },
  { name: 'switch box, true colors', share: 5, make: (r) => photograph(r, switchBox(r), 'true colors') },
  {
    name: 'switch box in cable, nothing told, true colors',
    share: 0,
    make: (r) => photograph(r, cabledSwitchBox(r), 'true colors'),
  },
  {
    name: 'switch box in cable, cables told, true colors',
    share: 0,
    make: (r) => photograph(r, cabledSwitchBox(r), 'true colors', {}, 'cable'),
  },
  {
    name: 'switch box in cable, cables and switch legs told, true colors',
    share: 0,
    make: (r) =>
      photograph(r, cabledSwitchBox(r), 'true colors', { systems: ['us-120-240-1ph', 'us-switch-legs'] }, 'cable'),
  },
  { name: 'panel with spaces, camera', share: 7, make: (r) => photograph(r, panel(r, false), 'camera') },
  { name: 'panel with spaces, two swapped, camera', share: 2, make: (r) => photograph(r, panel(r, true), 'camera') },
  { name: 'less usual colors, true colors', share: 4, make: (r) => photograph(r, variant(r), 'true colors') },
  { name: BY_TAG, share: 4, make: (r) => photograph(r, numbered(r), 'true colors') },
  {
    name: 'phase by number tag, and the user says so, true colors',
    share: 0,
    make: (r) => photograph(r, numbered(r), 'true colors', { phasesBy: 'tag' }),
  },
  {
    name: 'practice, one system, the user vouches for its colors, true colors',
    share: 0,
    make: (r) => photograph(r, oneSystem(r), 'true colors', { phasesBy: 'color' }),
  },
  {
    name: 'practice, two systems, circuits told, true colors',
    share: 0,
    make: (r) => photograph(r, twoSystems(r), 'true colors', {}, 'circuit'),
  },
  { name: 'bad work, camera', share: 5, make: (r) => photograph(r, spoil(r, oneSystem(r)), 'camera') },
  { name: 'a bundle of one role, camera', share: 0, make: (r) => photograph(r, bundle(r), 'camera') },
  { name: 'black lines, phase by number tag, camera', share: 0, make: (r) => photograph(r, blackLines(r), 'camera') },
  {
    name: 'phase by number tag, conductors tied by tag, true colors',
    share: 0,
    make: (r) => photograph(r, numbered(r), 'true colors', {}, 'tag'),
  },
  {
    name: 'phase by number tag, tags read, 5 in 100 wrong, true colors',
    share: 0,
    make: (r) => photograph(r, numbered(r), 'true colors', {}, undefined, 0.05),
  },
  {
    name: 'practice, one system, tags read, 5 in 100 wrong, camera',
    share: 0,
    make: (r) => photograph(r, oneSystem(r), 'camera', {}, undefined, 0.05),
  },
  {
    name: 'phase by number tag, tags read, 15 in 100 wrong, true colors',
    share: 0,
    make: (r) => photograph(r, numbered(r), 'true colors', {}, undefined, 0.15),
  },
];
