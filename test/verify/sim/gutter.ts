import type { Assignment, Reading } from '../../../src/flow';
import { assess } from '../../../src/verify/assess';
import { Chance } from './chance';
import { METER, measure, readingOf } from './probe';
import { makeSite, type Site } from './site';

const ROLES = 5;

/** The map of a gutter that the colors leave in some doubt between two systems. */
const doubted = (a: Assignment): Assignment => ({
  ...a,
  roles: [
    ...a.roles.map((r) => ({ ...r, probability: 0.9 * r.probability })),
    ...a.roles.slice(0, 3).map((r) => ({ ...r, system: 'us-480y277', probability: 0.1 * r.probability })),
  ],
});

/** A sound 208Y/120 V gutter of so many conductors, and honest readings of every second of its live checks. */
export function gutterOf(size: number): { readonly site: Site; readonly half: readonly Reading[] } {
  const chance = new Chance(size);
  const circuits = Math.ceil((size - ROLES + 3) / 3);
  const whole = makeSite(chance, { wrong: 'nothing', system: 'us-208y120', circuits });
  const dropped = new Set(whole.wires.slice(0, whole.wires.length - size).map((w) => w.id));
  const map = {
    ...whole.map,
    systems: [
      { system: 'us-208y120', probability: 0.95 },
      { system: 'us-480y277', probability: 0.3 },
    ],
    assignments: whole.map.assignments.filter((a) => !dropped.has(a.conductor)).map(doubted),
  };
  const site = { ...whole, map, wires: whole.wires.filter((w) => !dropped.has(w.id)) };
  const live = assess(map, [], { meter: METER }).needs.filter((n) => n.condition === undefined);
  const half = live.flatMap((n, i) => {
    const value = i % 2 === 0 ? measure(n, site, chance) : null;
    return value === null ? [] : [readingOf(n, value)];
  });
  return { site, half };
}
