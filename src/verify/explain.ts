import { type Explanation, type Message, message, type Reading } from '../flow';
import { judgeReading } from './agreement';
import type { Assessment } from './assess';
import { type Claim, isLine } from './claim';
import { isShutdown } from './effort';
import type { Component, World } from './infer';
import { causeOf, LEVELS, sightKey } from './likelihood';
import { weighingMeter } from './meter';
import type { Models } from './models';
import type { MeterOptions } from './options';
import { meets } from './required';
import { roleInClaimed } from './same-place';
import { sightOf } from './sight';
import { at, checkId, conductorsOf } from './test-point';

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
  const meter = weighingMeter(options.meter);
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

/** Everything is as the map says and yet the readings do not fit: then it is the supply's own volts that are off. */
function supplyDeviation(contradicting: readonly Reading[]): Deviation {
  const volts = contradicting.find((r) => typeof r.value === 'number');
  return volts
    ? { key: 'range', message: message('verify.explain.out-of-range', { value: volts.value }) }
    : { key: 'uneven', message: message('verify.explain.uneven') };
}

interface Weighed {
  readonly component: Component;
  readonly contradicting: readonly Reading[];
  readonly assessment: Assessment;
  readonly options: MeterOptions;
}

/** What a world says is wrong, the weightiest first: roles, then faults, the reading itself, the supply's volts. */
const deviation = (world: World, { component, contradicting, assessment, options }: Weighed): Deviation =>
  roleDeviation(movedIn(world, assessment.original, assessment.belief.models)) ??
  faultDeviation(world) ??
  readingDeviation(world, component, options) ??
  supplyDeviation(contradicting);

interface Group {
  readonly deviation: Deviation;
  probability: number;
  readonly world: World;
}

function grouped(weighed: Weighed): Group[] {
  const groups = new Map<string, Group>();
  for (const world of weighed.component.worlds) {
    const found = deviation(world, weighed);
    const known = groups.get(found.key);
    if (known) known.probability += world.probability;
    else groups.set(found.key, { deviation: found, probability: world.probability, world });
  }
  return [...groups.values()].sort((a, b) => b.probability - a.probability);
}

export type Probe = Pick<Reading, 'from' | 'to' | 'third' | 'function' | 'condition'>;

const seenAs = (probe: Probe, world: World): string => {
  const reading: Reading = { ...probe, id: '', value: 0, at: '', by: '' };
  return sightKey(sightOf(reading, statesFor(reading, world), world.variant));
};

/** Loading a line of a floating system to ground sets off its monitor; there a plain repeat has to do. */
const mayLoad = (reading: Reading, { belief }: Assessment): boolean =>
  !conductorsOf(reading).some((id) => belief.models(belief.claims.get(id)?.system ?? '')?.ground === 'floating');

/** Conductors that two worlds put on different lines, each on the marked pole of either: about nothing on its own. */
function poleProbes(first: World, second: World): Probe[] {
  return [...first.states].flatMap(([id, one]) => {
    const other = second.states.get(id);
    if (!other || (one.role === other.role && one.system === other.system)) return [];
    return [one, other]
      .filter(({ role }) => isLine(role))
      .map(({ system, role }): Probe => ({ from: at(id), to: { kind: 'pole', system, role }, function: 'AC volts' }));
  });
}

/**
 * The check on which the two likeliest explanations differ: a loaded repeat, a required one still missing, a plain
 * repeat, or a marked pole.
 */
function settling(groups: readonly Group[], { component, assessment, contradicting }: Weighed): Probe | undefined {
  const [first, second] = groups;
  const own = (ids: readonly string[]): boolean => ids.some((id) => component.conductors.includes(id));
  const open = assessment.needs.filter(
    (n) => own(conductorsOf(n)) && !assessment.sorted.counted.some((r) => meets(r, n)),
  );
  // What can be read now settles before what needs a shutdown.
  const missing = [...open.filter((n) => !isShutdown(n)), ...open.filter(isShutdown)];
  const loaded = contradicting
    .filter((r) => r.function === 'AC volts' && mayLoad(r, assessment))
    .map((r): Probe => ({ ...probing(r), function: 'AC volts, low impedance' }));
  // Read twice and still in doubt: reading a third time settles nothing.
  const times = (probe: Probe): number => component.readings.filter((r) => checkId(r) === checkId(probe)).length;
  const left = (probes: readonly Probe[]): Probe[] => probes.filter((probe) => times(probe) < REPEATS);
  const candidates = left([...loaded, ...missing.map(probing), ...contradicting.map(probing)]);
  if (!first || !second) return candidates[0];
  const tells = (c: Probe): boolean => seenAs(c, first.world) !== seenAs(c, second.world);
  return candidates.find(tells) ?? left(poleProbes(first.world, second.world)).find(tells) ?? candidates[0];
}

/** Only where the leads go and how: nothing of the check or reading it was taken from. */
const probing = (of: Probe): Probe => ({
  from: of.from,
  to: of.to,
  function: of.function,
  ...(of.third ? { third: of.third } : {}),
  ...(of.condition ? { condition: of.condition } : {}),
});

/** A check is asked for again at most until it has been read this often. */
const REPEATS = 2;
/** Explanations less probable than this are not worth a line. */
const LEAST = 0.005;
/** Shown at most, per group of conductors. */
const SHOWN = 5;

interface Explained {
  readonly groups: readonly Group[];
  readonly settledBy: Probe | undefined;
}

/** Group of conductors by group: what its contradictions may come from, and what settles it. */
function explained(assessment: Assessment, options: MeterOptions): Explained[] {
  const disputed = new Set(assessment.conductors.filter((c) => c.standing === 'disputed').map((c) => c.conductor));
  const claims = new Map([...assessment.belief.claims, ...assessment.original]);
  const against = (reading: Reading): boolean =>
    judgeReading(reading, { ...assessment.belief, claims }).agreement === 'contradicts';
  return assessment.components.flatMap((component) => {
    const contradicting = component.readings.filter(against);
    const concerned = contradicting.length > 0 || component.conductors.some((id) => disputed.has(id));
    if (!concerned) return [];
    const weighed: Weighed = { component, contradicting, assessment, options };
    const groups = grouped(weighed).filter((g) => g.probability >= LEAST);
    return [{ groups, settledBy: settling(groups, weighed) }];
  });
}

/** Ranked reasons for the contradictions, each group of conductors on its own; empty while nothing contradicts. */
export const explain = (assessment: Assessment, options: MeterOptions): Explanation[] =>
  explained(assessment, options).flatMap(({ groups, settledBy }) =>
    groups.slice(0, SHOWN).map(
      ({ deviation: d, probability }): Explanation => ({
        message: d.message,
        probability,
        ...(settledBy ? { settledBy: checkId(settledBy) } : {}),
      }),
    ),
  );

/** The checks named in the explanations, each once. */
export function settlingProbes(assessment: Assessment, options: MeterOptions): Probe[] {
  const all = explained(assessment, options).flatMap(({ groups, settledBy }) =>
    settledBy && groups.length > 0 ? [settledBy] : [],
  );
  return [...new Map(all.map((probe) => [checkId(probe), probe])).values()];
}
