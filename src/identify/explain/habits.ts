import type { ColorName, Role, SystemId } from '../../flow';
import { CONVENTIONS } from '../data/conventions';
import { SYSTEMS } from '../data/systems';
import type { Jurisdiction } from '../system';

const COLORS = new Map<string, Set<ColorName>>();
const USUAL = new Map<string, ColorName>();
for (const c of CONVENTIONS) {
  const line = `${c.system}/${c.role}`;
  for (const key of [c.system, line]) {
    const set = COLORS.get(key) ?? new Set<ColorName>();
    for (const { color } of c.looks) if (color !== 'bare') set.add(color);
    COLORS.set(key, set);
  }
  const first = c.looks.find((l) => l.color !== 'bare')?.color;
  if (c.scheme === 'habit' && first !== undefined && first !== 'bare' && !USUAL.has(line)) USUAL.set(line, first);
}
const NONE: ReadonlySet<ColorName> = new Set();

/** Colors that some convention gives a role of a system (any role when absent). */
export const habitColors = (system: SystemId, role?: Role): ReadonlySet<ColorName> =>
  COLORS.get(role === undefined ? system : `${system}/${role}`) ?? NONE;

/** The usual color of a role: first look of the habit, or null. */
export const usualColor = (system: SystemId, role: Role): ColorName | null => USUAL.get(`${system}/${role}`) ?? null;

const COMMON = new Map<string, number>();

/** How many supply systems of a jurisdiction have a color in their conventions. */
export function commonness(jurisdiction: Jurisdiction, color: ColorName): number {
  const key = `${jurisdiction}/${color}`;
  const kept = COMMON.get(key);
  if (kept !== undefined) return kept;
  const here = Object.values(SYSTEMS).filter((s) => s.jurisdiction === jurisdiction && s.kind !== 'auxiliary');
  const n = here.filter((s) => habitColors(s.id).has(color)).length;
  COMMON.set(key, n);
  return n;
}
