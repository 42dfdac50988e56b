import type { SiteKnowledge, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';
import {
  AUXILIARY,
  AUXILIARY_BESIDE_TWO,
  AUXILIARY_NAMED,
  BOTH_OF_TWO_NAMED,
  DC_BESIDE_AC,
  LEGEND_BOOST,
  OF_THREE_NAMED,
  OTHER_SYSTEM,
  PAIR_AFFINITY,
  SWITCHED,
  SWITCHED_BOX,
  SYSTEM_WEIGHT,
  TWO_SYSTEMS,
} from '../model/priors';

/** Which supply systems are present, with prior probability. */
export interface Presence {
  readonly systems: readonly SystemId[];
  readonly prior: number;
}

const isAuxiliary = (id: SystemId): boolean => SYSTEMS[id]?.kind === 'auxiliary';
const pairKey = (a: SystemId, b: SystemId): string => (a < b ? `${a}|${b}` : `${b}|${a}`);
const AFFINITY = new Map(PAIR_AFFINITY.map(([a, b, f]) => [pairKey(a, b), f]));

const isDc = (id: SystemId): boolean => SYSTEMS[id]?.kind === 'dc';
const affinity = (a: SystemId, b: SystemId): number =>
  AFFINITY.get(pairKey(a, b)) ?? (isDc(a) || isDc(b) ? DC_BESIDE_AC : 1);

/** Supply systems to be considered: those the user named, else all of the jurisdiction. */
export function candidateMains(knowledge: SiteKnowledge): readonly SystemId[] {
  const named = knowledge.systems.filter((id) => SYSTEMS[id] && !isAuxiliary(id));
  if (named.length > 0) return [...new Set(named)].sort();
  const posted = new Set(knowledge.legend.map((entry) => entry.system));
  return Object.values(SYSTEMS)
    .filter((s) => s.kind !== 'auxiliary' && (s.jurisdiction === knowledge.jurisdiction || posted.has(s.id)))
    .map((s) => s.id)
    .sort();
}

/** Kept by what is known, which is never changed in place: they are asked for once a conductor. */
const PRESENCES = new WeakMap<SiteKnowledge, readonly Presence[]>();

/** One or two supply systems, three where the user named so many, with prior probabilities that sum to 1. */
export function presences(knowledge: SiteKnowledge): readonly Presence[] {
  const kept = PRESENCES.get(knowledge);
  if (kept) return kept;
  const made = makePresences(knowledge);
  PRESENCES.set(knowledge, made);
  return made;
}

function makePresences(knowledge: SiteKnowledge): readonly Presence[] {
  const mains = candidateMains(knowledge);
  const named = knowledge.systems.some((id) => SYSTEMS[id] && !isAuxiliary(id));
  const posted = new Set(knowledge.legend.map((entry) => entry.system));
  const weight = (id: SystemId): number =>
    named ? 1 : (SYSTEM_WEIGHT[id] ?? OTHER_SYSTEM) * (posted.has(id) ? LEGEND_BOOST : 1);
  const several = named && mains.length > 2;
  const three = several ? OF_THREE_NAMED.three : 0;
  const two = mains.length < 2 ? 0 : several ? OF_THREE_NAMED.two : named ? BOTH_OF_TWO_NAMED : TWO_SYSTEMS;
  const singles = mains.map((id) => ({ systems: [id], prior: weight(id) }));
  const pairs = mains.flatMap((a, i) =>
    mains.slice(i + 1).map((b) => ({
      systems: [a, b],
      prior: weight(a) * weight(b) * (named ? 1 : affinity(a, b)),
    })),
  );
  const triples = several
    ? mains.flatMap((a, i) =>
        mains.slice(i + 1).flatMap((b, k) => mains.slice(i + k + 2).map((c) => ({ systems: [a, b, c], prior: 1 }))),
      )
    : [];
  return [...normalized(singles, 1 - two - three), ...normalized(pairs, two), ...normalized(triples, three)];
}

function normalized(list: readonly Presence[], total: number): Presence[] {
  let sum = 0;
  for (const p of list) sum += p.prior;
  return sum === 0 ? [] : list.map((p) => ({ systems: p.systems, prior: (p.prior / sum) * total }));
}

/**
 * Probability that an auxiliary system rides along with these supplies; `base` where nothing else is known. `cables`:
 * how many the user told apart.
 */
export function riderPrior(
  system: SystemId,
  base: number,
  mains: readonly SystemId[],
  { named, cables }: { readonly named: boolean; readonly cables: number },
): number {
  if (named) return base;
  if (mains.length > 1) return base * AUXILIARY_BESIDE_TWO;
  const [main] = mains;
  const lit = main !== undefined && (SWITCHED[main] ?? 0) >= (AUXILIARY[system] ?? 1);
  if (cables > 1 && lit && system.endsWith('switch-legs')) return SWITCHED_BOX;
  return system.endsWith('switch-legs') && main !== undefined ? (SWITCHED[main] ?? base) : base;
}

/** Auxiliary systems that may ride along, each with its probability; at most one at a time. */
export function auxiliaries(
  knowledge: SiteKnowledge,
): readonly { readonly system: SystemId; readonly prior: number }[] {
  const named = knowledge.systems.filter(isAuxiliary);
  if (named.length > 0) return named.sort().map((system) => ({ system, prior: AUXILIARY_NAMED / named.length }));
  return Object.keys(AUXILIARY)
    .filter((id) => {
      const j = SYSTEMS[id]?.jurisdiction;
      return j === knowledge.jurisdiction || id === 'iec-machine';
    })
    .sort()
    .map((system) => ({ system, prior: AUXILIARY[system]! }));
}
