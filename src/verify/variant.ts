import type { PhaseMap, Role, SystemId } from '../flow';
import { SYSTEMS } from '../identify';
import { groundOf } from './expected-voltage';
import { kindOf } from './kind';
import type { Models } from './models';
import { between, type Phasor, ZERO } from './phasor';
import type { State } from './state';
import { statesOf } from './states';
import type { SystemModel } from './system-model';

/** A supply without regard to how likely it is. */
export interface VariantCore {
  /** The same for the same supply. */
  readonly key: string;
  readonly systems: readonly SystemModel[];
  readonly ground: Phasor;
  /** A floating system with one line grounded: its first ground fault. */
  readonly groundFault: boolean;
  readonly states: readonly State[];
  /** Each role of each system once; `alike`: how many roles of that system are of its kind. */
  readonly kinds: readonly { readonly system: SystemId; readonly role: Role; readonly alike: number }[];
}

/** Which supplies a set of connected readings is explained by, and where ground stands in a floating one. */
export interface Variant extends VariantCore {
  readonly logPrior: number;
}

/** Presence given to a system of the same country that the photo says nothing for, or has ruled out by color. */
const UNSEEN = 0.01;
/** A second system is considered only where the map gives it this much. */
const SECOND = 0.05;
/** First ground faults go unnoticed for long in isolated systems; an assumption. */
const GROUND_FAULT = 0.04;

const lines = (model: SystemModel): Phasor[] =>
  model.points.filter((p) => p.role !== 'equipment grounding conductor').map((p) => p.at);

/** Where ground may stand in a floating system: about the middle, or on a line. */
function grounds(model: SystemModel): { at: Phasor; fault: boolean; weight: number }[] {
  if (model.ground === 'bonded') return [{ at: ZERO, fault: false, weight: 1 }];
  const middle = groundOf(model);
  const corners = lines(model);
  const near = [middle, ...corners.map((p) => between(middle, p, 0.3))];
  const share = (1 - GROUND_FAULT) / near.length;
  return [
    ...near.map((at) => ({ at, fault: false, weight: share })),
    ...corners.map((at) => ({ at, fault: true, weight: GROUND_FAULT / corners.length })),
  ];
}

function kindsOf(states: readonly State[]): VariantCore['kinds'] {
  const named = [...new Map(states.map((s) => [`${s.system} ${s.role}`, s])).values()];
  return named.map(({ system, role }) => ({
    system,
    role,
    alike: named.filter((s) => s.system === system && kindOf(s.role) === kindOf(role)).length,
  }));
}

/** Supplies already built; they depend on nothing but their voltages. */
const KEPT = new Map<string, VariantCore>();
const MOST_KEPT = 500;

const bare = (id: SystemId): boolean => SYSTEMS[id]?.kind !== 'auxiliary';

/** The supplies worth considering for a map, likeliest first: each alone, and pairs of those the map sees. */
export function variantsOf(map: PhaseMap, models: Models): Variant[] {
  const presence = new Map(map.systems.map((s) => [s.system, s.probability]));
  const countries = new Set([...presence.keys()].flatMap((id) => SYSTEMS[id]?.jurisdiction ?? []));
  for (const system of Object.values(SYSTEMS))
    if (countries.has(system.jurisdiction) && !presence.has(system.id)) presence.set(system.id, UNSEEN);
  for (const { system } of map.eliminated) presence.set(system, Math.max(UNSEEN, presence.get(system) ?? 0));
  const alone = [...presence].flatMap(([id, p]) => {
    const model = bare(id) ? models(id) : null;
    return model ? [{ model, p: Math.min(Math.max(p, UNSEEN), 0.99) }] : [];
  });
  // Switch legs ride along only where the map names them: unswitched, one reads like any line.
  const named = new Set(map.systems.filter((s) => s.probability > UNSEEN).map((s) => s.system));
  const rides = [...named]
    .flatMap((id) => {
      const model = bare(id) ? null : models(id);
      return model ? `${id}:${model.maxVolts.toFixed(1)}` : [];
    })
    .join('+');
  const riding = [...named].flatMap((id) => {
    const model = bare(id) ? null : models(id);
    return model ? statesOf(model).filter((s) => s.role === 'switch leg' || s.role === 'traveler') : [];
  });
  const make = (systems: readonly SystemModel[], ground: Phasor, groundFault: boolean, p: number): Variant => {
    // A system the map did not see and an odd fault in it at once are not worth the search.
    const plain = systems.some((m) => (presence.get(m.id) ?? 0) < SECOND);
    const volts = [...systems.map((m) => `${m.id}:${m.points.length}:${m.maxVolts.toFixed(1)}`), rides].join('+');
    const key = `${plain ? 'plain ' : ''}${volts}@${ground.re.toFixed(1)},${ground.im.toFixed(1)}`;
    const known = KEPT.get(key);
    if (known) return { ...known, logPrior: Math.log(p) };
    const states = [...systems.flatMap(statesOf).filter((s) => !plain || s.blur === 0), ...riding];
    const core = { key, systems, ground, groundFault, states, kinds: kindsOf(states) };
    if (KEPT.size >= MOST_KEPT) KEPT.clear();
    KEPT.set(key, core);
    return { ...core, logPrior: Math.log(p) };
  };
  const single = alone.flatMap(({ model, p }) =>
    grounds(model).map(({ at, fault, weight }) => make([model], at, fault, p * weight)),
  );
  const seen = alone.filter((a) => a.p >= SECOND && a.model.ground === 'bonded' && a.model.current === 'AC');
  const pairs = seen.flatMap((a, i) =>
    seen.slice(i + 1).map((b) => make([a.model, b.model], ZERO, false, a.p * b.p * 0.5)),
  );
  return [...single, ...pairs].sort((a, b) => b.logPrior - a.logPrior);
}
