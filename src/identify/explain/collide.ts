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

/** A name that at least this much of an unsure reading lies on may be the color. */
const MAY_BE = 0.1;

/** Looks that an unsure conductor may have. */
function looksOf(seen: Seen): readonly string[] {
  const sure = lookOf(seen);
  if (sure !== null) return [sure];
  const names = seen.conductor.insulation.candidates.filter((c) => c.probability >= MAY_BE).map((c) => c.name);
  return names.map((name) => (seen.stripe ? `${name} striped` : name));
}

function lookOf(seen: Seen): string | null {
  if (seen.conductor.covering === 'bare' && seen.conductor.userWord === undefined) return 'bare';
  if (seen.tape) return seen.tape;
  if (seen.sure < SURE) return null;
  return seen.stripe ? `${seen.color} striped` : seen.color;
}

/**
 * Roles that color leaves open for each conductor (by id): the smallest sets of one or two systems (three of named ones) whose conventions
 * explain every surely read look are kept, and all roles that they give a look are listed; where the color is unsure,
 * all roles that they give any of its candidates. One role means that color decides; none that no such set was found.
 */
export function openRoles(all: readonly Seen[], knowledge: SiteKnowledge): ReadonlyMap<string, ReadonlySet<Role>> {
  const distinct = [...new Set(all.map(lookOf).filter((l) => l !== null))];
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
  if (sets.length === 0 && knowledge.systems.length > 2)
    sets = threes(systems).filter((set) => explains(set, distinct));
  const byLook = new Map<string, ReadonlySet<Role>>();
  const rolesOf = (look: string): ReadonlySet<Role> => {
    const kept = byLook.get(look);
    if (kept) return kept;
    const roles = new Set<Role>();
    for (const set of sets) for (const table of set) for (const role of table.get(look) ?? []) roles.add(role);
    byLook.set(look, roles);
    return roles;
  };
  return new Map(all.map((s) => [s.conductor.id, new Set(looksOf(s).flatMap((look) => [...rolesOf(look)]))]));
}

/** One table of each of three systems; only named ones are so few. */
const threes = (systems: readonly (readonly Table[])[]): (readonly Table[])[] =>
  systems.flatMap((first, i) =>
    systems
      .slice(i + 1)
      .flatMap((second, k) =>
        systems
          .slice(i + k + 2)
          .flatMap((third) =>
            first.flatMap((a) => second.flatMap((b) => third.map((c): readonly Table[] => [a, b, c]))),
          ),
      ),
  );

const explains = (set: readonly Table[], looks: readonly string[]): boolean =>
  looks.every((look) => set.some((table) => table.has(look)));
