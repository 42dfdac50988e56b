import { COLOR_NAMES, type Role, type SiteKnowledge, type SystemId } from '../../flow';
import { habitColors } from '../explain/habits';
import { COLOR_INDEX } from '../model/aging';
import { BARE_SHARE, type Evidence } from '../model/evidence';
import {
  crowdPower,
  MIXES,
  MIXES_OF_THREE,
  SINGLE_SET,
  SINGLE_SET_IN_CABLE,
  SINGLE_SET_LIMIT,
  SOLE_ROLE,
  STRICTNESSES,
  type Strictness,
} from '../model/priors';
import { CABLE, lookRatio, roleLook } from '../model/role-look';
import { strictnessPrior } from '../model/site-habit';
import { resetArena } from './arena';
import { makeBeside } from './beside';
import { auxiliaries, candidateMains, presences, riderPrior } from './candidates';
import { descending } from './descending';
import { type Hypothesis, soleOf } from './hypothesis';
import {
  type Auxiliary,
  circuitRoles,
  type ExtraRatios,
  GROUND,
  type Member,
  makeAuxiliary,
  makeExtras,
  makeMembers,
  sumAuxiliary,
  sumMember,
} from './members';
import { circuitPrior, extraMixture, extraShares } from './role-prior';
import type { Units } from './units';
import { boundOf, marginalsOf, unitsOf, weigh } from './weigh';

/** Joint posterior, kept by (system, role) column. Rows are conductors in the order of the evidence. */
export interface Posterior {
  readonly columns: readonly { readonly system: SystemId; readonly role: Role }[];
  /** Probability by conductor and column. */
  readonly roles: Float64Array;
  /** The same without the conductor's own look: what the rest of the picture says of it. */
  readonly rest: Float64Array;
  readonly systems: ReadonlyMap<SystemId, number>;
  readonly schemes: ReadonlyMap<string, number>;
  readonly strictness: Readonly<Record<Strictness, number>>;
  /** Natural log of the weight of the picture, to compare what is known with what is seen. */
  readonly logEvidence: number;
  /** Upper bound of the share of weight that was not looked at. */
  readonly skipped: number;
}

/** How exact the posterior is. */
export interface Accuracy {
  /** The weakest hypotheses are skipped as long as their bounds add up to less than this share of the whole. */
  readonly skip: number;
  /** Up to this many loose conductors one set per system is weighed exactly; beyond, only "many circuits". */
  readonly singleSetLimit: number;
  /** One set of each of three systems, however long it takes: for tests of what leaving it out costs. */
  readonly threeSets?: boolean;
}
export const USUAL: Accuracy = { skip: 2e-3, singleSetLimit: SINGLE_SET_LIMIT };
/**
 * Each conductor's ratios are scaled so that a fitting role weighs about this: 500 of one color and one role do not
 * overflow, nor do 500 of two systems underflow.
 */
const SCALE = 3;
export const UNKNOWN_SYSTEM: SystemId = 'unknown';

/** All hypotheses with their priors; the likelihood tables are shared. */
export function hypotheses(
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
  units: Units,
  singleSetLimit = SINGLE_SET_LIMIT,
  threeSets = false,
): { readonly list: readonly Hypothesis[]; readonly logScale: number } {
  const mains = candidateMains(knowledge);
  const riders = auxiliaries(knowledge).filter(({ system }) => mayRide(system, evidence, knowledge));
  const grounding = mains[0];
  const list: Hypothesis[] = [];
  const inCables = units.blocks.filter((b) => b.cabled);
  const cables = inCables.length;
  const cabled = evidence.map((_, i) => inCables.some((b) => b.conductors.includes(i)));
  const everywhere = evidence.map(() => true);
  const ridersNamed = knowledge.systems.some((id) => riders.some((r) => r.system === id));
  const worn = STRICTNESSES.filter((strictness) => strictness !== 'alike' || mayBeAlike(evidence));
  const tables = worn.map((strictness) => ({
    strictness,
    members: new Map(mains.map((id) => [id, makeMembers(id, strictness, evidence, knowledge)])),
    riders: riders.map(({ system, prior }) => ({
      prior,
      auxiliary: makeAuxiliary(system, strictness, evidence, knowledge, cabled),
      inCable: makeAuxiliary(system, strictness, evidence, knowledge, everywhere),
    })),
    extras: makeExtras(grounding ?? 'us-208y120', 'habit', strictness, evidence, knowledge),
    extrasInCable: makeExtras(grounding ?? 'us-208y120', CABLE, strictness, evidence, knowledge),
  }));
  const logScale = scaleTables(tables, evidence.length);
  for (const t of tables) {
    for (const list of t.members.values()) sumMembers(list, units);
    for (const { auxiliary, inCable } of t.riders) {
      sumAuxiliary(auxiliary);
      sumAuxiliary(inCable);
    }
  }
  const oneSet = units.loose.length > 0 && units.loose.length <= singleSetLimit;
  const present = presences(knowledge).map(({ systems, prior }) => {
    const rates = riders.map((r) => riderPrior(r.system, r.prior, systems, { named: ridersNamed, cables }));
    const none = 1 - rates.reduce((sum, rate) => sum + rate, 0);
    return { systems, prior, strictness: strictnessPrior(systems, knowledge), rates: [none, ...rates] };
  });
  for (const table of tables) {
    const pulled = companies(table.extras, [null, ...table.riders.map((r) => r.auxiliary)], units);
    const cabled = companies(table.extrasInCable, [null, ...table.riders.map((r) => r.inCable)], units);
    for (const { systems, prior, strictness, rates } of present) {
      for (const members of product(systems.map((id) => table.members.get(id)!))) {
        // A supply in cable has what comes with cable: bare grounds, and switch legs in black and red.
        const inCable = members.some((m) => m.scheme === CABLE);
        let weight = prior * strictness[table.strictness];
        for (const m of members) weight *= m.weight;
        const setFits = oneSet && (members.length < 3 || threeSets || setsFit(members, units.loose.length));
        const company = inCable ? cabled : pulled;
        // By places: what an iterator hands out here would be a quarter of all that is made for a map.
        for (let rider = 0; rider < company.length; rider++) {
          const { auxiliary, extras, beside } = company[rider]!;
          const p = rates[rider]!;
          for (const { structure, odds } of setFits ? structuresOf(inCable) : MANY_ONLY) {
            const mixes = mixesOf(members.length, structure);
            const bundles = structure === 'many' && auxiliary === null ? bundlesOf(members, units) : EACH_ITS_OWN;
            for (let m = 0; m < mixes.length; m++) {
              for (const { sole, share } of bundles) {
                list.push({
                  mains: members,
                  mix: mixes[m]!,
                  auxiliary,
                  extras,
                  beside,
                  structure,
                  sole,
                  strictness: table.strictness,
                  prior: (weight * p * odds * share) / mixes.length,
                });
              }
            }
          }
        }
      }
    }
  }
  return { list, logScale };
}

/** What may lie beside the mains, one for each auxiliary system that may ride along or none. */
const companies = (extras: ExtraRatios, riders: readonly (Auxiliary | null)[], units: Units) =>
  riders.map((auxiliary) => ({
    auxiliary,
    extras,
    beside: {
      many: makeBeside(extras, auxiliary, units, extraShares),
      set: makeBeside(extras, auxiliary, units, extraMixture),
    },
  }));

/** Colors that a site of black lines does not have. */
const COLORED = COLOR_NAMES.filter((name) => !['black', 'white', 'gray', 'green', 'green-yellow'].includes(name));
/** A conductor that is probably of such a color. */
const PROBABLY = 0.5;

/**
 * Could all lines here be black? One conductor in red leaves such a site a fiftieth of its 2 % (`STRAY`), less than
 * what `skip` lets go, so that its hypotheses need not be made.
 */
const mayBeAlike = (evidence: readonly Evidence[]): boolean =>
  evidence.every((e) => {
    let colored = 0;
    for (const name of COLORED) colored += e.body[COLOR_INDEX[name]]! / COLOR_NAMES.length;
    return colored * (1 - Math.min(1, e.bare * BARE_SHARE)) < PROBABLY;
  });

/** Likelihood ratio of a look that is read as likely as not; green with a stripe on its far side stays below. */
const READ = 4;

/**
 * Riders that the user named, and those of any color. An isolated ground wears what an ordinary one may wear as well, so
 * that only the ordinary one beside it, in plain green or bare, speaks for it: three grounds in green and yellow are
 * three grounds of a site that has them so.
 */
function mayRide(system: SystemId, evidence: readonly Evidence[], knowledge: SiteKnowledge): boolean {
  if (habitColors(system).size > 1 || knowledge.systems.includes(system)) return true;
  const [role] = circuitRoles(system);
  if (role === undefined) return false;
  const look = roleLook(system, 'habit', role, 'strict', knowledge.legend);
  const ordinary = (e: Evidence): boolean => e.bare > READ || e.body[COLOR_INDEX.green]! * e.plain > READ;
  return evidence.some((e) => lookRatio(e, role, look) > READ) && evidence.some(ordinary);
}

type Structures = readonly { readonly structure: 'single set' | 'many'; readonly odds: number }[];
const MANY_ONLY: Structures = [{ structure: 'many', odds: 1 }];
const split = (single: number): Structures => [
  { structure: 'single set', odds: single },
  { structure: 'many', odds: 1 - single },
];
const PULLED = split(SINGLE_SET);
const IN_CABLE = split(SINGLE_SET_IN_CABLE);
const structuresOf = (inCable: boolean): Structures => (inCable ? IN_CABLE : PULLED);

/**
 * States times conductors up to which one set of each of three systems is weighed: 12 conductors of three systems of
 * four roles, which takes half a second. Beyond, they are many circuits only; the gap is tested.
 */
const MOST_STATES = 50_000;
const setsFit = (members: readonly Member[], conductors: number): boolean =>
  2 ** members.reduce((bits, m) => bits + m.roles.length, 0) * conductors <= MOST_STATES;

/** Shares of the systems that are tried; three are even, or one of them has half or a tenth. */
function mixesOf(systems: number, structure: 'single set' | 'many'): readonly (readonly number[])[] {
  if (systems < 2) return EVEN[1]!;
  if (structure === 'single set') return EVEN[systems]!;
  return systems === 2 ? MIXES_OF_TWO : MIXES_OF_THREE;
}
const EVEN = [0, 1, 2, 3].map((systems) => [Array.from({ length: systems }, () => 1 / systems)]);
const MIXES_OF_TWO = MIXES.map((x) => [x, 1 - x]);

interface Bundle {
  readonly sole: number;
  readonly share: number;
}
const EACH_ITS_OWN: readonly Bundle[] = [{ sole: -1, share: 1 }];

/**
 * Each its own role, or all the same: possible where one system has two conductors or more, nothing is tied and nothing
 * rides along (beside switch legs of any color a bundle would explain every picture).
 */
function bundlesOf(members: readonly Member[], units: Units): readonly Bundle[] {
  const [only] = members;
  if (members.length !== 1 || !only || units.loose.length < 2 || units.blocks.length > 0) return EACH_ITS_OWN;
  const prior = circuitPrior(only, 0, false);
  return [
    { sole: -1, share: 1 - SOLE_ROLE },
    ...only.soles.map(({ role, share }, sole) => ({ sole, share: SOLE_ROLE * prior[role]! * share })),
  ];
}

function sumMembers(list: readonly Member[], units: Units): void {
  const first = list[0];
  if (!first) return;
  const usual = [false, true].map((onPole) => circuitPrior(first, 0, onPole));
  const prior = (i: number): Float64Array => {
    const space = units.space[i]!;
    const onPole = units.onPole[i]!;
    return space > 0 ? circuitPrior(first, space, onPole, units.board) : usual[onPole ? 1 : 0]!;
  };
  for (const member of list) sumMember(member, prior);
}

function product(lists: readonly (readonly Member[])[]): readonly (readonly Member[])[] {
  let out: (readonly Member[])[] = [[]];
  for (const list of lists) out = out.flatMap((head) => list.map((m) => [...head, m]));
  return out;
}

interface Tables {
  readonly members: ReadonlyMap<SystemId, readonly Member[]>;
  readonly riders: readonly { readonly auxiliary: Auxiliary; readonly inCable: Auxiliary }[];
  readonly extras: ExtraRatios;
  readonly extrasInCable: ExtraRatios;
}

/** Scales every conductor's ratios in place by one factor; returns the sum of the logs taken out. */
function scaleTables(tables: readonly Tables[], conductors: number): number {
  const arrays: { readonly values: Float64Array; readonly width: number }[] = [];
  for (const t of tables) {
    for (const { ground, foreign } of [t.extras, t.extrasInCable]) {
      arrays.push({ values: ground, width: 1 }, { values: foreign, width: 1 });
    }
    for (const { auxiliary, inCable } of t.riders) {
      for (const { ratio, roles } of [auxiliary, inCable]) arrays.push({ values: ratio, width: roles.length });
    }
    for (const list of t.members.values())
      for (const m of list) {
        arrays.push({ values: m.ratio, width: m.roles.length });
        for (const { ratio } of m.soles) arrays.push({ values: ratio, width: 1 });
      }
  }
  let log = 0;
  for (let i = 0; i < conductors; i++) {
    let top = 0;
    for (const { values, width } of arrays) for (let r = 0; r < width; r++) top = Math.max(top, values[i * width + r]!);
    const factor = SCALE / top;
    for (const { values, width } of arrays) {
      for (let r = 0; r < width; r++) values[i * width + r] = values[i * width + r]! * factor;
    }
    log -= Math.log(factor);
  }
  return log;
}

/** Exact posterior of the model, up to hypotheses whose summed bound is `skipped`. */
export function posterior(
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
  units: Units,
  accuracy: Accuracy = USUAL,
): Posterior {
  const { list, logScale } = hypotheses(evidence, knowledge, units, accuracy.singleSetLimit, accuracy.threeSets);
  const n = evidence.length;
  const table = columnsOf(knowledge);
  const { columns } = table;
  const roles = new Float64Array(n * columns.length);
  const rest = new Float64Array(n * columns.length);
  const systems = new Map<SystemId, number>();
  const schemes = new Map<string, number>();
  const strictness: Record<Strictness, number> = { strict: 0, loose: 0, alike: 0, careless: 0 };

  const bounds = new Float64Array(list.length);
  let left = 0;
  for (let k = 0; k < list.length; k++) {
    bounds[k] = boundOf(list[k]!, units);
    left += bounds[k]!;
  }
  let total = 0;
  let looked = 0;
  for (const k of descending(bounds)) {
    // What is left cannot move any probability by more than this share.
    if (left <= accuracy.skip * total) break;
    left -= bounds[k]!;
    looked++;
    resetArena();
    const h = list[k]!;
    const parts = unitsOf(h, units);
    const weighed = weigh(h, parts, units);
    const { weight } = weighed;
    if (weight === 0) continue;
    total += weight;
    for (const m of h.mains) {
      add(systems, m.system, weight);
      add(schemes, `${m.system}/${m.scheme}`, weight);
    }
    if (h.auxiliary) add(systems, h.auxiliary.system, weight);
    strictness[h.strictness] += weight;
    spread(layout(h, table), marginalsOf(h, parts, weighed, n), n, columns.length, roles, rest);
  }
  const skipped = looked === list.length || total === 0 ? 0 : Math.max(0, left) / total;
  const scale = total > 0 ? 1 / total : 0;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let c = 0; c < columns.length; c++) sum += rest[i * columns.length + c]!;
    for (let c = 0; c < columns.length; c++) {
      const at = i * columns.length + c;
      roles[at] = roles[at]! * scale;
      if (sum > 0) rest[at] = rest[at]! / sum;
    }
  }
  for (const map of [systems, schemes]) for (const [key, w] of map) map.set(key, w * scale);
  for (const key of STRICTNESSES) strictness[key] *= scale;
  return {
    columns,
    roles,
    rest,
    systems,
    schemes,
    strictness,
    logEvidence: Math.log(total) + crowdPower(n) * logScale,
    skipped,
  };
}

interface Columns {
  readonly columns: readonly { readonly system: SystemId; readonly role: Role }[];
  readonly column: (system: SystemId, role: Role) => number;
  /** The columns of the roles of a system, one a place: asked for with every hypothesis, so that they are kept. */
  readonly alone: (roster: {
    readonly system: SystemId;
    readonly roles: readonly Role[];
  }) => readonly (readonly number[])[];
}

function columnsOf(knowledge: SiteKnowledge): Columns {
  const columns: { system: SystemId; role: Role }[] = [];
  const all = [...candidateMains(knowledge), ...auxiliaries(knowledge).map((a) => a.system)];
  for (const system of all) for (const role of circuitRoles(system)) columns.push({ system, role });
  for (const system of [...candidateMains(knowledge), UNKNOWN_SYSTEM]) columns.push({ system, role: GROUND });
  columns.push({ system: UNKNOWN_SYSTEM, role: 'unassigned' });
  const index = new Map(columns.map(({ system, role }, c) => [`${system}/${role}`, c]));
  const column = (system: SystemId, role: Role): number => index.get(`${system}/${role}`)!;
  const kept = new Map<SystemId, readonly (readonly number[])[]>();
  return {
    columns,
    column,
    alone({ system, roles }) {
      const made = kept.get(system) ?? roles.map((role) => [column(system, role)]);
      kept.set(system, made);
      return made;
    },
  };
}

const add = <K>(map: Map<K, number>, key: K, w: number): void => void map.set(key, (map.get(key) ?? 0) + w);

/** Where the numbers of one slot lie, and where its probability goes: grounding has one column per main. */
interface Place {
  /** Likelihood ratio of conductor i: `ratio[i * stride + offset]`. */
  readonly ratio: Float64Array;
  readonly stride: number;
  readonly offset: number;
  readonly columns: readonly number[];
  readonly shares: readonly number[];
}

const WHOLE = [1] as const;

function layout(h: Hypothesis, { column, alone: columnsOfRoles }: Columns): readonly Place[] {
  const out: Place[] = [];
  for (const m of h.mains) {
    const sole = soleOf(h, m);
    columnsOfRoles(m).forEach((columns, offset) => {
      out.push(
        sole
          ? { ratio: sole.ratio, stride: 1, offset: 0, columns, shares: WHOLE }
          : { ratio: m.ratio, stride: m.roles.length, offset, columns, shares: WHOLE },
      );
    });
  }
  const alone = { stride: 1, offset: 0 };
  const grounds = h.mains.map((m) => column(m.system, GROUND));
  out.push({ ratio: h.extras.ground, ...alone, columns: grounds, shares: h.mix });
  out.push({ ratio: h.extras.foreign, ...alone, columns: [column(UNKNOWN_SYSTEM, 'unassigned')], shares: WHOLE });
  const aux = h.auxiliary;
  if (aux)
    columnsOfRoles(aux).forEach((columns, offset) => {
      out.push({ ratio: aux.ratio, stride: aux.roles.length, offset, columns, shares: WHOLE });
    });
  return out;
}

function spread(
  places: readonly Place[],
  marginals: Float64Array,
  conductors: number,
  width: number,
  roles: Float64Array,
  rest: Float64Array,
): void {
  for (let s = 0; s < places.length; s++) {
    const { ratio, stride, offset, columns, shares } = places[s]!;
    for (let i = 0; i < conductors; i++) {
      const w = marginals[i * places.length + s]!;
      if (w === 0) continue;
      const own = ratio[i * stride + offset]!;
      const without = own > 0 ? w / own : 0;
      for (let k = 0; k < columns.length; k++) {
        const at = i * width + columns[k]!;
        roles[at] = roles[at]! + shares[k]! * w;
        rest[at] = rest[at]! + shares[k]! * without;
      }
    }
  }
}
