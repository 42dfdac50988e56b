import { SYSTEMS } from '../data/systems';
import { SURE } from '../explain/read';
import type { SchemeName } from '../model/role-look';
import { namesLine, roleOfTag } from '../model/tag';
import { panelMap } from '../panel/map';
import { roleByColor } from '../panel/observed';
import { mayShareNeutral, panelKindOf, panelPole } from '../panel/pole';
import { RULES } from './rules';
import { type Finder, type FindingScene, finding, isUngrounded, LIKELY } from './scene';

const validSpace = (n: number | undefined): n is number => n !== undefined && Number.isInteger(n) && n >= 1;

/** The most probable system that has a panel pattern, with its most probable scheme. */
function fedBy({ found }: FindingScene) {
  const top = [...found.systems]
    .filter(([id, p]) => p >= LIKELY && panelKindOf(id) !== null)
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0];
  if (!top) return null;
  const [system] = top;
  const kind = panelKindOf(system);
  const scheme = [...found.schemes]
    .filter(([key]) => key.startsWith(`${system}/`))
    .sort((a, b) => b[1] - a[1])[0]?.[0]
    .slice(system.length + 1);
  return kind ? { system, kind, scheme: (scheme ?? 'habit') as SchemeName } : null;
}

/** Colors against pole spaces: swapped, repeated on one breaker, all shifted, or simply different. */
export const phaseOrder: Finder = (scene) => {
  const { seen, knowledge } = scene;
  const landed = seen.filter((s) => validSpace(knowledge.spaces[s.conductor.id]));
  const fed = landed.length > 0 ? fedBy(scene) : null;
  if (!fed) return [];
  const spaces = Object.fromEntries(landed.map((s) => [s.conductor.id, knowledge.spaces[s.conductor.id]!]));
  const map = panelMap(
    fed.kind,
    fed.system,
    landed.map((s) => s.conductor),
    { assignments: landed.map((s) => ({ conductor: s.conductor.id, roles: [], because: [] })) },
    { ...knowledge, spaces },
    0,
    fed.scheme,
  );
  const byId = new Map(seen.map((s) => [s.conductor.id, s.conductor]));
  const named = (ids: readonly string[]) => ids.flatMap((id) => byId.get(id) ?? []);
  const rule = knowledge.jurisdiction === 'CA' ? RULES.canadianOrder : RULES.phaseOrder;
  const faulty = new Set(map.faults.flatMap((f) => f.conductors));
  const out = map.faults.map((f) =>
    finding(`panel-${f.kind}`, f.kind === 'rolled' ? 'note' : 'warning', named(f.conductors), rule, {
      a: f.spaces[0]!,
      b: f.spaces[1] ?? f.spaces[0]!,
    }),
  );
  for (const { space, expected, conductors } of map.spaces) {
    for (const c of conductors) {
      if (c.verdict !== 'differs' || faulty.has(c.id)) continue;
      const leg = expected === 'high leg' || c.byColor === 'high leg';
      out.push(
        finding(
          leg ? 'high-leg-not-on-its-phase' : 'panel-differs',
          leg ? 'violation' : 'warning',
          named([c.id]),
          rule,
          {
            space,
            color: c.color,
            expected,
          },
        ),
      );
    }
  }
  return out;
};

/** One neutral shared by spaces of the same phase: its current adds up. */
export const sharedNeutral: Finder = (scene) => {
  const { seen, knowledge } = scene;
  const fed = fedBy(scene);
  if (!fed) return [];
  return knowledge.groups.flatMap((group) => {
    if (group.kind !== 'circuit' && group.kind !== 'cable') return [];
    const members = seen.filter((s) => group.conductors.includes(s.conductor.id));
    const landed = members.filter((s) => validSpace(knowledge.spaces[s.conductor.id]));
    const neutrals = members.filter((s) => s.role === 'grounded conductor' && s.roleProbability >= LIKELY);
    const spaces = landed.map((s) => knowledge.spaces[s.conductor.id]!);
    if (spaces.length < 2 || neutrals.length !== 1 || mayShareNeutral(spaces, fed.kind, knowledge.board)) return [];
    return [
      finding(
        'neutral-same-phase',
        'danger',
        [...landed, ...neutrals].map((s) => s.conductor),
        RULES.multiwire,
        {
          a: spaces[0]!,
          b: spaces[1]!,
        },
      ),
    ];
  });
};

/** No 120 V load may go on the high leg: a circuit of one ungrounded and one grounded conductor on a B space. */
export const loadOnHighLeg: Finder = (scene) => {
  const fed = fedBy(scene);
  if (!fed || SYSTEMS[fed.system]?.kind !== 'high-leg delta') return [];
  const { seen, knowledge } = scene;
  return knowledge.groups.flatMap((group) => {
    const members = seen.filter((s) => group.conductors.includes(s.conductor.id));
    const hot = members.filter(isUngrounded);
    const neutral = members.some((s) => s.role === 'grounded conductor' && s.roleProbability >= LIKELY);
    const space = hot.length === 1 ? knowledge.spaces[hot[0]!.conductor.id] : undefined;
    if (!neutral || !validSpace(space) || panelPole(space, fed.kind, knowledge.board) !== 'high leg') return [];
    return [
      finding(
        'load-on-high-leg',
        'danger',
        hot.map((s) => s.conductor),
        RULES.practice,
        { space },
      ),
    ];
  });
};

/**
 * A tag that does not agree: with the pole its conductor lands on, else with the line that its color stands for where
 * nobody said that tags and not colors tell the phases; and one phase read on two conductors of a circuit or breaker.
 */
export const tagsAgainst: Finder = (scene) => {
  const { seen, knowledge } = scene;
  const tags = knowledge.tags ?? {};
  const fed = fedBy(scene);
  const tagged = seen.flatMap((s) => {
    const tag = tags[s.conductor.id];
    return tag === undefined ? [] : [{ s, tag }];
  });
  const out = tagged.flatMap(({ s, tag }) => {
    const space = knowledge.spaces[s.conductor.id];
    if (validSpace(space)) {
      const expected = fed && panelPole(space, fed.kind, knowledge.board);
      if (!fed || expected === null || roleOfTag(tag, fed.system) === expected) return [];
      return [finding('tag-against-space', 'warning', [s.conductor], RULES.tagged, { tag, space, role: expected })];
    }
    const system = fed?.system ?? s.system;
    const color = s.tape ?? s.color;
    const worn =
      knowledge.phasesBy !== 'tag' && (s.tape || s.sure >= SURE)
        ? roleByColor(system, fed?.scheme ?? 'habit', color, knowledge.legend)
        : null;
    if (worn === null || roleOfTag(tag, system) === worn) return [];
    return [finding('tag-against-color', 'warning', [s.conductor], RULES.tagged, { tag, color, role: worn })];
  });
  const twice = knowledge.groups.flatMap(({ kind, conductors }) => {
    if (kind !== 'circuit' && kind !== 'breaker') return [];
    const here = tagged.filter(({ s, tag }) => namesLine(tag) && conductors.includes(s.conductor.id));
    const same = here.filter(({ s, tag }) => here.some((o) => o.s !== s && o.tag === tag));
    const [first] = same;
    if (!first) return [];
    const all = same.map(({ s }) => s.conductor);
    return [finding('tag-repeated', 'warning', all, RULES.tagged, { tag: first.tag })];
  });
  return [...out, ...twice];
};
