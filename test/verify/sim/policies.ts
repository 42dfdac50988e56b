import type { Check, PhaseMap, Reading, TestPoint } from '../../../src/flow';
import { planChecks } from '../../../src/verify';
import { type Assessment, assess } from '../../../src/verify/assess';
import { effort, type Probing } from '../../../src/verify/effort';
import { explain } from '../../../src/verify/explain';
import type { Chance } from './chance';
import { names } from './names';
import { METER, measure, readingOf } from './probe';
import type { Site } from './site';

export type Policy = 'shipped' | 'measure everything' | 'random order';
export const POLICIES: readonly Policy[] = ['shipped', 'measure everything', 'random order'];

const OPTIONS = { meter: METER };
type Step = Pick<Check, 'from' | 'to' | 'third' | 'function' | 'condition'>;

/** Every pair anybody could put the leads on, then everything that needs the supply off. */
export function everything(map: PhaseMap, needs: readonly Step[]): Step[] {
  const wires = map.assignments.map((a): TestPoint => ({ kind: 'conductor', conductor: a.conductor }));
  const poles = new Map(
    needs.flatMap((n) => [n.from, n.to]).flatMap((p) => (p.kind === 'pole' ? [[p.role, p] as const] : [])),
  );
  const fixed: TestPoint[] = [{ kind: 'ground' }, ...poles.values()];
  const pairs = wires.flatMap((from, i) => [...wires.slice(i + 1), ...fixed].map((to) => ({ from, to })));
  const loaded = (step: { from: TestPoint; to: TestPoint }): boolean =>
    step.from.kind === 'conductor' && step.to.kind === 'conductor';
  return [
    // Between conductors on the loaded range, which answers for the plain one too; to ground and poles plain.
    ...pairs.map((p): Step => ({ ...p, function: loaded(p) ? 'AC volts, low impedance' : 'AC volts' })),
    ...wires.map(
      (from): Step => ({ from, to: { kind: 'ground' }, function: 'continuity', condition: 'supply off, lifted' }),
    ),
  ];
}

export interface Outcome {
  /** Readings and work until every conductor is metered (right map) or one is disputed (wrong map); null: never. */
  readonly readings: number | null;
  readonly work: number | null;
  /** Readings until the trouble is the first explanation, looked at after every reading. */
  readonly namedAfter: number | null;
}

const finished = (site: Site, state: Assessment): boolean =>
  site.wrong === 'nothing'
    ? state.conductors.every((c) => c.standing === 'metered')
    : state.conductors.some((c) => c.standing === 'disputed');

/** Plays the electrician by one policy until the site is proved, or refuted and (where `toName`) named. */
export function play(site: Site, policy: Policy, chance: Chance, toName = false): Outcome {
  const start = assess(site.map, [], OPTIONS);
  const fixed: Step[] =
    policy === 'random order'
      ? chance.shuffled(start.needs)
      : policy === 'measure everything'
        ? everything(site.map, start.needs)
        : [];
  const readings: Reading[] = [];
  let work = 0;
  let last: Probing | null = null;
  let found: { readings: number; work: number } | null = null;
  const skipped = new Set<string>();
  for (let step = 0; step < 80; step++) {
    const next: Step | undefined =
      policy === 'shipped' ? planChecks(site.map, readings, OPTIONS).next.find((c) => !skipped.has(c.id)) : fixed[step];
    if (!next) break;
    const value = measure(next, site, chance);
    if (value === null) {
      if ('id' in next) skipped.add(String(next.id));
      continue;
    }
    work += effort(last, next);
    last = next;
    readings.push(readingOf(next, value));
    const state = assess(site.map, readings, OPTIONS);
    if (!found && finished(site, state)) found = { readings: readings.length, work };
    const first = explain(state, OPTIONS)[0];
    const named = first !== undefined && names(first, site);
    if (found && (site.wrong === 'nothing' || named || !toName))
      return { ...found, namedAfter: named ? readings.length : null };
  }
  return { readings: found?.readings ?? null, work: found?.work ?? null, namedAfter: null };
}
