import type { BoardNumbering, ColorName, NamedConductor, PhaseMap, Role, SiteKnowledge, SystemId } from '../../flow';
import { see } from '../explain/read';
import { weighedSchemes } from '../infer/members';
import type { SchemeName } from '../model/role-look';
import { roleByColor } from './observed';
import { type PanelKind, panelPole, poleRow, poleSide } from './pole';

/** One pole space of a drawn panel. */
export interface PanelSpace {
  readonly space: number;
  readonly side: 'left' | 'right';
  /** From 1 at the top. */
  readonly row: number;
  readonly expected: Role;
  /** Conductors on this space; two on a tandem breaker. */
  readonly conductors: readonly PanelConductor[];
}

export interface PanelConductor {
  readonly id: string;
  readonly color: ColorName;
  /** The role its color stands for here, or null where color cannot say. */
  readonly byColor: Role | null;
  readonly verdict: 'as expected' | 'differs' | 'undecided';
}

/** Two conductors that each wear the color of the other's phase, or colors that repeat on one breaker. */
export interface PanelFault {
  readonly kind: 'swapped' | 'repeated' | 'rolled';
  readonly conductors: readonly string[];
  readonly spaces: readonly number[];
}

export interface PanelMap {
  readonly kind: PanelKind;
  readonly system: SystemId;
  readonly spaces: readonly PanelSpace[];
  readonly faults: readonly PanelFault[];
}

/** A color must be at least this sure before it can contradict a pole space. */
const SURE_ENOUGH = 0.8;

/**
 * Each pole space with its expected phase beside the phase that the conductor's color stands for. Spaces run from 1
 * to `count`, or to the highest space used if that is more. Color only: a fault is a reason to measure, not a fact.
 * Throws RangeError when a space is not a whole number from 1.
 */
export function panelMap(
  kind: PanelKind,
  system: SystemId,
  conductors: readonly NamedConductor[],
  map: Pick<PhaseMap, 'assignments'>,
  knowledge: SiteKnowledge,
  count = 0,
  scheme: SchemeName = weighedSchemes(system, knowledge.legend)[0]?.scheme ?? 'habit',
): PanelMap {
  const { board } = knowledge;
  const assignments = new Map(map.assignments.map((a) => [a.conductor, a]));
  const bySpace = new Map<number, PanelConductor[]>();
  for (const c of [...conductors].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    const space = knowledge.spaces[c.id];
    const assignment = assignments.get(c.id);
    if (space === undefined || !assignment) continue;
    const seen = see(c, assignment);
    const color = seen.tape ?? seen.color;
    const byColor = seen.tape || seen.sure >= SURE_ENOUGH ? roleByColor(system, scheme, color, knowledge.legend) : null;
    const expected = panelPole(space, kind, board);
    const list = bySpace.get(space) ?? [];
    list.push({
      id: c.id,
      color,
      byColor,
      verdict: byColor === null ? 'undecided' : byColor === expected ? 'as expected' : 'differs',
    });
    bySpace.set(space, list);
  }
  const last = Math.max(count, ...bySpace.keys());
  const spaces = Array.from({ length: last }, (_, k): PanelSpace => {
    const space = k + 1;
    return {
      space,
      side: poleSide(space, board),
      row: drawnRow(space, last, board),
      expected: panelPole(space, kind, board),
      conductors: bySpace.get(space) ?? [],
    };
  });
  return { kind, system, spaces, faults: faults(spaces, knowledge) };
}

/** Row from 1 at the top, of a board drawn to its space `last`. */
const drawnRow = (space: number, last: number, board?: BoardNumbering): number =>
  board?.order === 'upside down' ? poleRow(last, board) + 1 - poleRow(space, board) : poleRow(space, board);

function faults(spaces: readonly PanelSpace[], knowledge: SiteKnowledge): PanelFault[] {
  const landed = spaces.flatMap((s) => s.conductors.map((c) => ({ ...c, space: s.space, expected: s.expected })));
  const decided = landed.filter((c) => c.byColor !== null);
  const wrong = decided.filter((c) => c.verdict === 'differs');
  if (wrong.length === 0) return [];
  // Every color one step on: the board begins on another phase or is marked otherwise; no single conductor is at fault.
  const shifts = new Set(decided.map((c) => `${c.expected}>${c.byColor}`));
  const roles = new Set(decided.map((c) => c.expected));
  if (wrong.length === decided.length && wrong.length >= 3 && roles.size >= 2 && shifts.size === roles.size) {
    return [{ kind: 'rolled', conductors: wrong.map((c) => c.id), spaces: wrong.map((c) => c.space) }];
  }
  const out: PanelFault[] = [];
  const paired = new Set<string>();
  for (const a of wrong) {
    if (paired.has(a.id)) continue;
    // `wrong` is in the order of spaces and those below are paired already, so that the first is the nearest.
    const near = wrong.find((b) => !paired.has(b.id) && b.byColor === a.expected && a.byColor === b.expected);
    if (!near) continue;
    paired.add(a.id).add(near.id);
    out.push({ kind: 'swapped', conductors: [a.id, near.id], spaces: [a.space, near.space] });
  }
  for (const group of knowledge.groups) {
    if (group.kind !== 'breaker') continue;
    const mine = decided.filter((c) => group.conductors.includes(c.id));
    const twice = mine.filter((c) => mine.some((d) => d.id !== c.id && d.byColor === c.byColor));
    if (twice.length > 0)
      out.push({ kind: 'repeated', conductors: twice.map((c) => c.id), spaces: twice.map((c) => c.space) });
  }
  return out;
}

/** Amperes per phase or line and how far the worst is from the mean, 0 to 1. Loads are by pole space. */
export interface PanelBalance {
  readonly amperes: Readonly<Partial<Record<Role, number>>>;
  readonly imbalance: number;
}

/** Sums entered loads by phase. Negative or odd numbers throw RangeError. */
export function panelBalance(
  loads: Readonly<Record<number, number>>,
  kind: PanelKind,
  board?: BoardNumbering,
): PanelBalance {
  const amperes: Partial<Record<Role, number>> = {};
  for (const space of [1, 3, 5]) amperes[panelPole(space, kind)] = 0;
  for (const [key, load] of Object.entries(loads)) {
    if (!Number.isFinite(load) || load < 0) throw new RangeError(`load ${load} A`);
    const role = panelPole(Number(key), kind, board);
    amperes[role] = (amperes[role] ?? 0) + load;
  }
  const values = Object.values(amperes);
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const imbalance = mean === 0 ? 0 : Math.max(...values.map((v) => Math.abs(v - mean))) / mean;
  return { amperes, imbalance };
}
