import type { Role, SystemId } from '../../../src/flow';
import { CONVENTIONS, type Convention, SYSTEMS } from '../../../src/identify';

/**
 * Does color decide? Independent of the engine: by the conventions alone. A set of one or two US supply systems
 * explains a picture if every look in it is a look of some role there; the smallest such sets are kept; color
 * decides a conductor when all of them give its look one role. Only lines of code rule or common practice count
 * (no local ordinance, nothing older than the rule that ended it).
 */
export function rolesColorAllows(
  trueLooks: Readonly<Record<string, string>>,
  named: readonly SystemId[],
): Map<string, Set<Role>> {
  const distinct = new Set(Object.values(trueLooks));
  const systems = named.length > 0 ? named : US_SUPPLIES;
  const tables = new Map(systems.map((id) => [id, variants(id)]));
  const singles: Table[] = systems.flatMap((id) => tables.get(id)!);
  let fitting: Table[][] = singles.filter((t) => covers([t], distinct)).map((t) => [t]);
  if (fitting.length === 0) {
    fitting = systems.flatMap((a, i) =>
      systems.slice(i + 1).flatMap((b) =>
        tables
          .get(a)!
          .flatMap((x) => tables.get(b)!.map((y) => [x, y]))
          .filter((pair) => covers(pair, distinct)),
      ),
    );
  }
  return new Map(
    Object.entries(trueLooks).map(([id, look]) => {
      const roles = new Set<Role>();
      for (const set of fitting) for (const table of set) for (const role of table.get(look) ?? []) roles.add(role);
      return [id, roles];
    }),
  );
}

type Table = ReadonlyMap<string, readonly Role[]>;

const US_SUPPLIES = Object.values(SYSTEMS)
  .filter((s) => s.jurisdiction === 'US' && s.kind !== 'auxiliary')
  .map((s) => s.id);
const OUTDATED = new Set(['red high leg', 'without stripes', 'local A red']);

function variants(system: SystemId): Table[] {
  const own = CONVENTIONS.filter((c) => c.system === system && !OUTDATED.has(c.scheme));
  const schemes = new Set(own.map((c) => c.scheme));
  return [...schemes].map((scheme) => {
    const here = own.filter((c) => c.scheme === scheme);
    const named = new Set(here.map((c) => c.role));
    const lines: Convention[] = [...here, ...own.filter((c) => c.scheme === 'habit' && !named.has(c.role))];
    const table = new Map<string, Role[]>();
    for (const { role, looks } of lines) {
      for (const l of looks) {
        const key = l.stripe ? `${l.color} striped` : l.color;
        table.set(key, [...(table.get(key) ?? []), role]);
      }
    }
    return table;
  });
}

const covers = (set: readonly Table[], looks: ReadonlySet<string>): boolean =>
  [...looks].every((look) => set.some((table) => table.has(look)));

/**
 * The narrower question: does color decide for somebody who knows which systems are here and how this site wears
 * them? The tables of the true systems that give every look here its true role are the site's own; color decides a
 * conductor when they give its look one role. Sites that no table fits (bad work) decide nothing.
 */
export function rolesSiteAllows(
  trueLooks: Readonly<Record<string, string>>,
  truth: Readonly<Record<string, { readonly system: SystemId; readonly role: Role }>>,
): Map<string, Set<Role>> {
  const ids = Object.keys(trueLooks);
  const systems = [...new Set(ids.map((id) => truth[id]!.system))];
  const own = new Map(
    systems.map((system) => {
      const here = ids.filter((id) => truth[id]!.system === system);
      const worn = variants(system).filter((table) =>
        here.every((id) => table.get(trueLooks[id]!)?.includes(truth[id]!.role)),
      );
      return [system, worn];
    }),
  );
  if ([...own.values()].some((tables) => tables.length === 0)) return new Map();
  const tables = [...own.values()].flat();
  return new Map(ids.map((id) => [id, new Set(tables.flatMap((table) => table.get(trueLooks[id]!) ?? []))]));
}
