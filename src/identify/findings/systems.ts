import type { ColorName, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';
import { usualColor } from '../explain/habits';
import { systemKey } from '../explain/list';
import { type Seen, SURE } from '../explain/read';
import { DISTINCTIVE } from '../model/evidence';
import { RULES } from './rules';
import { type Finder, type FindingScene, finding, isUngrounded, LIKELY, likelySystems, northAmerica } from './scene';

/** A conductor that belongs to each of two systems with at least this probability may belong to either. */
const EITHER = 0.2;

const dress = (s: Seen): string => `${s.tape ?? s.color}/${s.stripe ?? ''}`;

/** Two systems in one enclosure that nothing tells apart, by their ungrounded and by their grounded conductors. */
export const systemsAlike: Finder = (scene) => {
  const [a, b] = likelySystems(scene);
  if (a === undefined || b === undefined || !northAmerica(scene.knowledge)) return [];
  const values = { a: systemKey(a), b: systemKey(b) };
  const shared = (own: (s: Seen) => boolean): Seen[] => {
    const looks = (id: SystemId) => new Set(scene.seen.filter((s) => s.system === id && own(s)).map(dress));
    const both = new Set([...looks(a)].filter((look) => looks(b).has(look)));
    return scene.seen.filter((s) => own(s) && both.has(dress(s)));
  };
  const hot = shared((s) => isUngrounded(s) && !s.role.startsWith('iso'));
  const habitAlike = alikeByHabit(a, b);
  const neutral = neutralsAlike(scene, a, b);
  return [
    ...(hot.length > 0 || habitAlike
      ? [
          finding(
            'systems-alike',
            'violation',
            hot.map((s) => s.conductor),
            RULES.systemsApart,
            values,
          ),
        ]
      : []),
    ...(neutral.length > 0
      ? [
          finding(
            'neutrals-alike',
            'violation',
            neutral.map((s) => s.conductor),
            RULES.neutralsApart,
            values,
          ),
        ]
      : []),
  ];
};

/** Grounded conductors that look alike and may belong to either system. */
function neutralsAlike(scene: FindingScene, a: SystemId, b: SystemId): Seen[] {
  const { columns, roles } = scene.found;
  const share = (i: number, system: SystemId): number => {
    const c = columns.findIndex((k) => k.system === system && k.role === 'grounded conductor');
    return c < 0 ? 0 : roles[i * columns.length + c]!;
  };
  const either = scene.seen.filter((_, i) => Math.min(share(i, a), share(i, b)) >= EITHER);
  return either.filter((s) => either.some((o) => o !== s && dress(o) === dress(s)));
}

/** Both systems usually have the same ungrounded colors, such as 120/240 and 208Y/120. */
function alikeByHabit(a: SystemId, b: SystemId): boolean {
  const colors = (id: SystemId): Set<ColorName> =>
    new Set(
      (SYSTEMS[id]?.roles ?? [])
        .filter((r) => r !== 'grounded conductor' && r !== 'equipment grounding conductor')
        .map((r) => usualColor(id, r))
        .filter((c) => c !== null),
    );
  const other = colors(b);
  return [...colors(a)].filter((c) => other.has(c)).length >= 2;
}

/** The high leg must be orange (or plainly marked). */
export const highLegColor: Finder = ({ seen, knowledge }) => {
  if (knowledge.jurisdiction !== 'US') return [];
  return seen
    .filter((s) => s.role === 'high leg' && s.roleProbability >= LIKELY && (s.tape ?? s.color) !== 'orange')
    .map((s) =>
      finding('high-leg-not-orange', 'violation', [s.conductor], RULES.highLegOrange, { color: s.tape ?? s.color }),
    );
};

/** Isolated power: a distinctive stripe along the whole length, not white, green or gray. */
export const isolatedStripes: Finder = ({ seen, knowledge }) => {
  if (knowledge.jurisdiction !== 'US') return [];
  return seen
    .filter((s) => s.role.startsWith('isolated conductor') && s.roleProbability >= LIKELY)
    .flatMap((s) => {
      if (s.stripe && !DISTINCTIVE.includes(s.stripe)) {
        return [
          finding('isolated-forbidden-stripe', 'violation', [s.conductor], RULES.isolatedStripe, { stripe: s.stripe }),
        ];
      }
      return s.stripe
        ? []
        : [finding('isolated-no-stripe', 'violation', [s.conductor], RULES.isolatedStripe, { color: s.color })];
    });
};

/** Old and new colors together: blue and black each mean two things. */
export const oldAndNew: Finder = ({ found, knowledge, seen }) => {
  if (knowledge.jurisdiction !== 'UK') return [];
  const p = (id: SystemId): number => found.systems.get(id) ?? 0;
  const old = p('uk-pre-2004-3ph') + p('uk-pre-2004-1ph');
  const current = p('uk-230-400') + p('uk-230-1ph');
  if (old < LIKELY || current < LIKELY) return [];
  const twofold = seen.filter((s) => s.color === 'blue' || s.color === 'black');
  return [
    finding(
      'old-and-new',
      'danger',
      twofold.map((s) => s.conductor),
      RULES.oldAndNew,
    ),
  ];
};

/** IEC 60445 gives black, brown and gray no order. */
export const noOrder: Finder = ({ seen, knowledge }) => {
  const lines = seen.filter((s) => s.role.startsWith('phase') && ['brown', 'black', 'gray'].includes(s.color));
  if (lines.length < 2 || knowledge.jurisdiction !== 'IEC') return [];
  return [
    finding(
      'no-order',
      'note',
      lines.map((s) => s.conductor),
      RULES.noOrder,
    ),
  ];
};

/** Only then is a whole site called loose. */
const PLAIN = 0.8;

/** Colors that tell the system but not the phase, as the picture itself shows. */
export const phaseByTag: Finder = ({ found, seen }) =>
  found.strictness.loose + found.strictness.alike < PLAIN
    ? []
    : [
        finding(
          'phase-by-tag',
          'note',
          seen.filter((s) => s.role.startsWith('phase')).map((s) => s.conductor),
          RULES.practice,
        ),
      ];

/** Nothing that could be the equipment grounding or the grounded conductor was seen. */
export const missing: Finder = (scene) => {
  const { seen, found } = scene;
  const hot = seen.filter((s) => isUngrounded(s) && s.roleProbability >= LIKELY);
  if (hot.length < 2) return [];
  const expected = (role: string): number => {
    const width = found.columns.length;
    let sum = 0;
    seen.forEach((_, i) => {
      found.columns.forEach((c, k) => {
        if (c.role === role) sum += found.roles[i * width + k]!;
      });
    });
    return sum;
  };
  const ground = expected('equipment grounding conductor') + expected('isolated ground') < 0.3;
  const system = likelySystems(scene)[0];
  const neutral =
    system !== undefined &&
    (SYSTEMS[system]?.roles.includes('grounded conductor') ?? false) &&
    expected('grounded conductor') < 0.3;
  return [
    ...(ground
      ? [finding('no-ground-seen', 'note', [], northAmerica(scene.knowledge) ? RULES.groundPath : RULES.practice)]
      : []),
    ...(neutral ? [finding('no-neutral-seen', 'note', [], RULES.practice, { system: systemKey(system) })] : []),
  ];
};

/** The grounded conductor of a circuit wears the color of the other system's. */
export const neutralOfOther: Finder = (scene) => {
  const systems = likelySystems(scene);
  if (systems.length < 2 || !northAmerica(scene.knowledge)) return [];
  return scene.knowledge.groups.flatMap((group) => {
    const members = scene.seen.filter((s) => group.conductors.includes(s.conductor.id));
    const hot = members.find((s) => isUngrounded(s) && s.roleProbability >= LIKELY);
    if (!hot) return [];
    const own = usualColor(hot.system, 'grounded conductor');
    const other = systems.filter((id) => id !== hot.system).map((id) => usualColor(id, 'grounded conductor'));
    return members
      .filter((s) => s.role === 'grounded conductor' && s.sure >= SURE && s.color !== own && other.includes(s.color))
      .map((s) =>
        finding('neutral-of-other-system', 'warning', [s.conductor], RULES.neutralsApart, {
          color: s.color,
          system: systemKey(hot.system),
        }),
      );
  });
};
