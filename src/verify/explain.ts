import { type Explanation, type Message, message, type Reading } from '../flow';
import { judgeReading } from './agreement';
import type { Assessment } from './assess';
import type { Claim } from './claim';
import type { Component, World } from './infer';
import { causeOf, LEVELS, sightKey } from './likelihood';
import { UNKNOWN_METER } from './meter';
import type { Models } from './models';
import type { MeterOptions } from './options';
import { meets } from './required';
import { roleInClaimed } from './same-place';
import { sightOf } from './sight';
import { checkId, conductorsOf } from './test-point';

interface Deviation {
  readonly key: string;
  readonly message: Message;
}

const statesFor = (reading: Reading, world: World) =>
  [reading.from, reading.to, reading.third].map((p) =>
    p?.kind === 'conductor' ? (world.states.get(p.conductor) ?? null) : null,
  );

interface Moved {
  readonly claim: Claim;
  readonly system: string;
  readonly role: string;
}

/** Conductors that a world puts elsewhere than the photo did; a like place in a like system is not elsewhere. */
function movedIn(world: World, original: ReadonlyMap<string, Claim>, models: Models): Moved[] {
  return [...world.states].flatMap(([id, state]) => {
    const claim = original.get(id);
    if (!claim) return [];
    const role = roleInClaimed(claim, state, models);
    if (role === claim.role) return [];
    return [role ? { claim, system: claim.system, role } : { claim, system: state.system, role: state.role }];
  });
}

const POLARITY: readonly string[] = ['grounded conductor', 'positive', 'negative'];

function roleDeviation(moved: readonly Moved[]): Deviation | null {
  const [a, b] = moved;
  if (!a) return null;
  const foreign = moved.find((m) => m.system !== m.claim.system);
  if (foreign) {
    const { system } = foreign;
    return {
      key: `system ${system}`,
      message: message('verify.explain.other-system', { system: `identify.system.${system}` }),
    };
  }
  if (b && moved.length === 2 && a.role === b.claim.role && b.role === a.claim.role) {
    const kind = POLARITY.includes(a.role) || POLARITY.includes(b.role) ? 'reversed-polarity' : 'swapped';
    const values = { first: a.claim.conductor, second: b.claim.conductor, role: a.claim.role, other: b.claim.role };
    return {
      key: `${kind} ${a.claim.conductor} ${b.claim.conductor}`,
      message: message(`verify.explain.${kind}`, values),
    };
  }
  return {
    key: `role ${moved
      .map((m) => `${m.claim.conductor}=${m.role}`)
      .sort()
      .join(' ')}`,
    message: message('verify.explain.other-role', { conductor: a.claim.conductor, role: a.role, count: moved.length }),
  };
}

const FAULT_CODE = {
  disconnected: 'disconnected',
  'open neutral': 'open-neutral',
  'shared neutral': 'shared-neutral',
  'lost phase, fed back': 'back-feed',
  'grounded line': 'ground-fault',
} as const;

function faultDeviation(world: World): Deviation | null {
  if (world.variant.groundFault) return { key: 'ground fault', message: message('verify.explain.ground-fault') };
  for (const [id, state] of world.states)
    if (state.fault)
      return {
        key: `${state.fault} ${id}`,
        message: message(`verify.explain.${FAULT_CODE[state.fault]}`, { conductor: id }),
      };
  return null;
}

function readingDeviation(world: World, component: Component, options: MeterOptions): Deviation | null {
  const meter = options.meter ?? UNKNOWN_METER;
  for (const reading of component.readings) {
    const cause = causeOf(
      reading,
      sightOf(reading, statesFor(reading, world), world.variant),
      LEVELS[world.level] ?? 1,
      meter,
    );
    if (cause === 'as it is') continue;
    const code = cause === 'mistake' ? 'reading-mistake' : 'wrong-function';
    const values = { value: String(reading.value), check: reading.id };
    return { key: `${code} ${reading.id}`, message: message(`verify.explain.${code}`, values) };
  }
  return null;
}

/** What a world says is wrong, the weightiest first: roles, then faults, then the reading itself. Null: nothing. */
function deviation(
  world: World,
  component: Component,
  assessment: Assessment,
  options: MeterOptions,
): Deviation | null {
  return (
    roleDeviation(movedIn(world, assessment.original, assessment.belief.models)) ??
    faultDeviation(world) ??
    readingDeviation(world, component, options)
  );
}

interface Group {
  readonly deviation: Deviation;
  probability: number;
  readonly world: World;
}

function grouped(component: Component, assessment: Assessment, options: MeterOptions): Group[] {
  const groups = new Map<string, Group>();
  for (const world of component.worlds) {
    const found = deviation(world, component, assessment, options);
    if (!found) continue;
    const known = groups.get(found.key);
    if (known) known.probability += world.probability;
    else groups.set(found.key, { deviation: found, probability: world.probability, world });
  }
  return [...groups.values()].sort((a, b) => b.probability - a.probability);
}

type Probe = Pick<Reading, 'from' | 'to' | 'third' | 'function' | 'condition'>;

const seenAs = (probe: Probe, world: World): string => {
  const reading: Reading = { ...probe, id: '', value: 0, at: '', by: '' };
  return sightKey(sightOf(reading, statesFor(reading, world), world.variant));
};

/** Loading a line of a floating system to ground sets off its monitor; there a plain repeat has to do. */
const mayLoad = (reading: Reading, { belief }: Assessment): boolean =>
  !conductorsOf(reading).some((id) => belief.models(belief.claims.get(id)?.system ?? '')?.ground === 'floating');

/** The check on which the two likeliest explanations differ: one still missing, a loaded repeat, or a plain repeat. */
function settling(
  groups: readonly Group[],
  component: Component,
  assessment: Assessment,
  contradicting: readonly Reading[],
): string | undefined {
  const [first, second] = groups;
  const own = (ids: readonly string[]): boolean => ids.some((id) => component.conductors.includes(id));
  const missing = assessment.needs.filter(
    (n) => own(conductorsOf(n)) && !assessment.sorted.counted.some((r) => meets(r, n)),
  );
  const loaded = contradicting
    .filter((r) => r.function === 'AC volts' && mayLoad(r, assessment))
    .map((r): Probe => ({ ...r, function: 'AC volts, low impedance' }));
  // Read twice and still in doubt: reading a third time settles nothing.
  const times = (probe: Probe): number => component.readings.filter((r) => checkId(r) === checkId(probe)).length;
  const candidates = [...loaded, ...missing, ...contradicting].filter((probe) => times(probe) < REPEATS);
  const found =
    (first && second && candidates.find((c) => seenAs(c, first.world) !== seenAs(c, second.world))) ?? candidates[0];
  return found && checkId(found);
}

/** A check is asked for again at most until it has been read this often. */
const REPEATS = 2;
/** Explanations less probable than this are not worth a line. */
const LEAST = 0.005;
/** Shown at most, per group of conductors. */
const SHOWN = 5;

/** Ranked reasons for the contradictions, each group of conductors on its own; empty while nothing contradicts. */
export function explain(assessment: Assessment, options: MeterOptions): Explanation[] {
  const disputed = new Set(assessment.conductors.filter((c) => c.standing === 'disputed').map((c) => c.conductor));
  const against = (reading: Reading): boolean => {
    const claims = new Map([...assessment.belief.claims, ...assessment.original]);
    return judgeReading(reading, { ...assessment.belief, claims }).agreement === 'contradicts';
  };
  return assessment.components.flatMap((component) => {
    const contradicting = component.readings.filter(against);
    const concerned = contradicting.length > 0 || component.conductors.some((id) => disputed.has(id));
    if (!concerned) return [];
    const groups = grouped(component, assessment, options).filter((g) => g.probability >= LEAST);
    const settledBy = settling(groups, component, assessment, contradicting);
    return groups.slice(0, SHOWN).map(
      ({ deviation: d, probability }): Explanation => ({
        message: d.message,
        probability,
        ...(settledBy === undefined ? {} : { settledBy }),
      }),
    );
  });
}
