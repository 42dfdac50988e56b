import type { Role, SiteKnowledge, SystemId } from '../../flow';
import type { Convention } from '../convention';
import { CONVENTIONS } from '../data/conventions';
import { candidateMains } from '../infer/candidates';
import { type Seen, SURE } from './read';

/** Roles by look ("orange", "orange striped", "bare") under one scheme of one system. */
type Table = ReadonlyMap<string, ReadonlySet<Role>>;

/** Schemes too rare or too old to keep color from deciding; they are weighed in the posterior all the same. */
const RARE = new Set<Convention['scheme']>(['local A red', 'red high leg', 'without stripes']);
const CACHE = new Map<SystemId, readonly Table[]>();

function tablesOf(system: SystemId): readonly Table[] {
  const kept = CACHE.get(system);
  if (kept) return kept;
  const own = CONVENTIONS.filter((c) => c.system === system && !RARE.has(c.scheme));
  const made = [...new Set(own.map((c) => c.scheme))].map((scheme): Table => {
    const here = own.filter((c) => c.scheme === scheme);
    const table = new Map<string, Set<Role>>();
    for (const c of own) {
      const speaks = c.scheme === scheme || (c.scheme === 'habit' && !here.some((h) => h.role === c.role));
      if (!speaks) continue;
      for (const l of c.looks) {
        const key = l.stripe ? `${l.color} striped` : l.color;
        table.set(key, (table.get(key) ?? new Set<Role>()).add(c.role));
      }
    }
    return table;
  });
  CACHE.set(system, made);
  return made;
}

function lookOf(seen: Seen): string | null {
  if (seen.conductor.covering === 'bare' && seen.conductor.userWord === undefined) return 'bare';
  if (seen.tape) return seen.tape;
  if (seen.sure < SURE) return null;
  return seen.stripe ? `${seen.color} striped` : seen.color;
}

/**
 * Roles that color leaves open for each conductor (by id): the smallest sets of one or two systems whose conventions
 * explain every surely read look are kept, and all roles that they give a look are listed. One role means that color
 * decides; none that no such set was found. Says nothing of conductors whose color is unsure.
 */
export function openRoles(all: readonly Seen[], knowledge: SiteKnowledge): ReadonlyMap<string, ReadonlySet<Role>> {
  const looks = new Map(all.map((s) => [s.conductor.id, lookOf(s)]));
  const distinct = [...new Set([...looks.values()].filter((l) => l !== null))];
  const systems = candidateMains(knowledge).map(tablesOf);
  let sets: (readonly Table[])[] = systems
    .flat()
    .map((t) => [t])
    .filter((set) => explains(set, distinct));
  if (sets.length === 0) {
    sets = systems.flatMap((mine, i) =>
      systems.slice(i + 1).flatMap((others) => mine.flatMap((a) => others.map((b): readonly Table[] => [a, b]))),
    );
    sets = sets.filter((set) => explains(set, distinct));
  }
  const byLook = new Map<string, Set<Role>>();
  for (const look of distinct) {
    const roles = new Set<Role>();
    for (const set of sets) for (const table of set) for (const role of table.get(look) ?? []) roles.add(role);
    byLook.set(look, roles);
  }
  const none: ReadonlySet<Role> = new Set();
  return new Map([...looks].map(([id, look]) => [id, (look === null ? undefined : byLook.get(look)) ?? none]));
}

const explains = (set: readonly Table[], looks: readonly string[]): boolean =>
  looks.every((look) => set.some((table) => table.has(look)));
