import { describe, expect, it } from 'vitest';
import type { PhaseMap, Reading, Standing, Verdict } from '../../src/flow';
import { checkId, judge, planChecks } from '../../src/verify';
import { say } from '../../src/words';
import { ground, mapOf, on, pole, type Said, WYE_208 } from './fixtures';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { METER, measure, readingOf } from './sim/probe';
import { makeSite } from './sim/site';

const OPTIONS = { meter: METER };
const MAP = mapOf(WYE_208);
const FULL = asClaimed(MAP, OPTIONS);

const standings = (verdict: Verdict): Record<string, Standing> =>
  Object.fromEntries(verdict.conductors.map((c) => [c.conductor, c.standing]));
const of = (readings: readonly Reading[], map: PhaseMap = MAP) => standings(judge(map, readings, OPTIONS));
const replaced = (id: string, value: Reading['value']): Reading[] =>
  FULL.map((r) => (checkId(r) === id ? { ...r, value, confirmed: true } : r));
const idOf = (reading: Reading | undefined): string => (reading ? checkId(reading) : '');
const find = (part: string): Reading | undefined => FULL.find((r) => checkId(r).includes(part));

const ALL_METERED = { a: 'metered', b: 'metered', c: 'metered', n: 'metered', g: 'metered' };

describe('standing', () => {
  it('is by color while nothing is measured', () => {
    expect(Object.values(of([]))).toEqual(Array(5).fill('by color'));
  });

  it('is metered when every required reading is in and agrees, in any order', () => {
    expect(of(FULL)).toEqual(ALL_METERED);
    expect(of([...FULL].reverse())).toEqual(ALL_METERED);
  });

  it('is not metered when any one required reading is left out', () => {
    for (const left of FULL) {
      const verdict = judge(
        MAP,
        FULL.filter((r) => r !== left),
        OPTIONS,
      );
      const open = verdict.conductors.filter((c) => c.missing.length > 0);
      expect(open.length).toBeGreaterThan(0);
      for (const c of open) expect(c.standing).not.toBe('metered');
    }
  });

  it('keeps the letter by color without its own pole, however good the rest is', () => {
    const noPoles = FULL.filter((r) => r.to.kind !== 'pole' && r.from.kind !== 'pole');
    const found = of(noPoles);
    expect([found.a, found.b, found.c]).toEqual(['by color', 'by color', 'by color']);
    expect([found.n, found.g]).toEqual(['metered', 'metered']);
  });

  it('is disputed, and says which reading, when one contradicts', () => {
    const id = idOf(find('conductor a | ground'));
    const verdict = judge(MAP, replaced(id, 61), OPTIONS);
    const a = verdict.conductors.find((c) => c.conductor === 'a');
    expect(a?.standing).toBe('disputed');
    expect(a?.contradict).toHaveLength(1);
    expect(verdict.explanations.length).toBeGreaterThan(0);
  });

  it('does not take 240 V for 208 V merely because one wide band holds both', () => {
    // At 0.9 of nominal a low 240 V pair reads 216 V: inside the range B band of 208 V, but its lines read 108 V.
    const low = asClaimed(MAP, OPTIONS, 0.9);
    const id = idOf(find('conductor a | conductor b'));
    const with216 = low.map((r) => (checkId(r) === id ? { ...r, value: 216 } : r));
    expect(of(low).a).toBe('metered');
    expect(of(with216).a).toBe('disputed');
  });
});

describe('what takes a standing back', () => {
  const first = FULL[0] as Reading;

  it('a reading that replaces another: the old one is kept, the new one counts', () => {
    const wrong: Reading = { ...first, id: 'again', value: 61, supersedes: first.id };
    const verdict = judge(MAP, [...FULL, wrong], OPTIONS);
    expect(Object.values(standings(verdict))).toContain('disputed');
    const right: Reading = { ...first, id: 'third', supersedes: 'again' };
    expect(of([...FULL, wrong, right])).toEqual(ALL_METERED);
    expect(judge(MAP, [...FULL, wrong], OPTIONS).changes.map((m) => m.code)).toContain('verify.aside.superseded');
  });

  it('an edit of the conductor after the reading', () => {
    const edited = { a: '2026-02-01T00:00:00Z' };
    const verdict = judge(MAP, FULL, { ...OPTIONS, edited });
    expect(standings(verdict).a).toBe('by color');
    expect(standings(judge(MAP, FULL, { ...OPTIONS, edited: { a: '2025-12-31T00:00:00Z' } })).a).toBe('metered');
  });

  it('an edit of the map: proof is never carried over to the new claim', () => {
    const edit = (id: string, role: Said['role']) => (s: Said) => (s.id === id ? { ...s, role, probability: 0.99 } : s);
    const other = mapOf(WYE_208.map(edit('a', 'phase B')).map(edit('n', 'equipment grounding conductor')));
    const verdict = judge(other, FULL, OPTIONS);
    for (const { conductor, standing } of verdict.conductors) {
      const truth = WYE_208.find((s) => s.id === conductor)?.role;
      const role = verdict.map.assignments.find((a) => a.conductor === conductor)?.roles[0]?.role;
      if (standing === 'metered') expect(role).toBe(truth);
    }
    const unread = FULL.filter((r) => !checkId(r).includes('pole us-208y120 phase A'));
    expect(of(unread, other).a).not.toBe('metered');
  });

  it('a reading without a name or a time does not count at all', () => {
    const unsigned = FULL.map((r) => ({ ...r, by: ' ' }));
    expect(Object.values(of(unsigned))).toEqual(Array(5).fill('by color'));
    expect(Object.values(of(FULL.map((r) => ({ ...r, at: 'yesterday' }))))).toEqual(Array(5).fill('by color'));
  });

  it('a questioned value waits for the confirmation', () => {
    const id = idOf(find('conductor a | ground'));
    const odd = replaced(id, 1175).map((r) => ({ ...r, confirmed: false }));
    expect(of(odd).a).toBe('by color');
    expect(of(replaced(id, 1175)).a).toBe('disputed');
  });
});

describe('explanations', () => {
  const top = (verdict: Verdict): string | undefined => verdict.explanations[0]?.message.code;

  it('names two exchanged phases, and proves the new roles once their own poles are read', () => {
    const claimed = mapOf(
      WYE_208.map((s) => (s.id === 'a' ? { ...s, role: 'phase B' } : s.id === 'b' ? { ...s, role: 'phase A' } : s)),
    );
    const poles = [
      {
        ...(find('conductor a | pole') as Reading),
        id: 'p1',
        to: pole('us-208y120', 'phase B'),
        from: on('a'),
        value: 203,
      },
      {
        ...(find('conductor b | pole') as Reading),
        id: 'p2',
        to: pole('us-208y120', 'phase A'),
        from: on('b'),
        value: 204,
      },
    ];
    const others = FULL.filter(
      (r) => !checkId(r).includes('pole us-208y120 phase A') && !checkId(r).includes('pole us-208y120 phase B'),
    );
    const before = judge(claimed, [...others, ...poles], OPTIONS);
    expect(top(before)).toBe('verify.explain.swapped');
    expect([standings(before).a, standings(before).b]).toEqual(['disputed', 'disputed']);
    const own = FULL.filter(
      (r) => checkId(r).includes('pole us-208y120 phase A') || checkId(r).includes('pole us-208y120 phase B'),
    );
    const after = judge(claimed, [...others, ...poles, ...own], OPTIONS);
    expect(after.map.assignments.find((a) => a.conductor === 'a')?.roles[0]?.role).toBe('phase A');
    expect([standings(after).a, standings(after).b]).toEqual(['metered', 'metered']);
  });

  it('names a coupled voltage when the loaded reading falls away', () => {
    const id = idOf(FULL.find((r) => r.function === 'AC volts, low impedance' && checkId(r).includes('conductor a ')));
    const readings = replaced(id, 0.4)
      .filter((r) => !checkId(r).includes('conductor a |') || checkId(r) === id || checkId(r).includes('ground'))
      .map((r) => (checkId(r) === idOf(find('conductor a | ground')) ? { ...r, value: 71 } : r));
    const verdict = judge(MAP, readings, OPTIONS);
    expect(top(verdict)).toBe('verify.explain.disconnected');
    expect(standings(verdict).a).toBe('disputed');
  });

  it('names a slip of the digits and asks to read again', () => {
    const slipped = find('conductor a | ground') as Reading;
    const verdict = judge(MAP, replaced(checkId(slipped), 171.6), OPTIONS);
    expect(top(verdict)).toBe('verify.explain.reading-mistake');
    expect(verdict.explanations[0]?.settledBy).toBeDefined();
  });

  /** The phases as claimed are exchanged; what an honest meter reads along the plan, one check after the other. */
  const EXCHANGED = mapOf(
    WYE_208.map((s) => (s.id === 'a' ? { ...s, role: 'phase B' } : s.id === 'b' ? { ...s, role: 'phase A' } : s)),
  );

  it('sends the lead to a marked pole where nothing else tells two letters apart', () => {
    const own = planChecks(EXCHANGED, [], OPTIONS).next.find((c) => c.id.includes('conductor a | pole'));
    if (!own) throw new Error('no such check');
    const readings = [readingOf(own, 204)];
    const settledBy = judge(EXCHANGED, readings, OPTIONS).explanations[0]?.settledBy;
    expect(settledBy).toMatch(/conductor a . pole us-208y120 phase [AC]$/);
    expect(planChecks(EXCHANGED, readings, OPTIONS).next[0]?.id).toBe(settledBy);
    // Twin: without the contradiction there is nothing to settle.
    expect(judge(EXCHANGED, [readingOf(own, 0.3)], OPTIONS).explanations).toEqual([]);
  });

  it('brings the check that settles a contradiction to the front of the plan, a missing required one too', () => {
    const site = makeSite(new Chance(4), { wrong: 'swapped phases', system: 'us-208y120' });
    const readings: Reading[] = [];
    const chance = new Chance(9);
    let required = 0;
    for (let k = 0; k < 16; k++) {
      const plan = planChecks(site.map, readings, OPTIONS);
      const wanted = judge(site.map, readings, OPTIONS).explanations.flatMap((e) => e.settledBy ?? []);
      const [front] = plan.next;
      if (!front) break;
      const offered = plan.next.filter((c) => wanted.includes(c.id) && !c.condition?.startsWith('supply off'));
      if (offered.length > 0) expect(wanted).toContain(front.id);
      required += Number(offered.some((c) => c.requiredFor.length > 0));
      // Not the front one: so that settling checks stay open.
      const next = plan.next.find((c) => !wanted.includes(c.id)) ?? front;
      const value = measure(next, site, chance);
      if (value === null) break;
      readings.push(readingOf(next, value));
    }
    expect(required).toBeGreaterThan(0);
  });

  it('does not ask for the same reading again and again', () => {
    const slipped = find('conductor a | ground') as Reading;
    const asked: (string | undefined)[] = [];
    let readings = replaced(checkId(slipped), 171.6);
    for (let k = 0; k < 4; k++) {
      const wanted = judge(MAP, readings, OPTIONS).explanations[0]?.settledBy;
      asked.push(wanted);
      const next = planChecks(MAP, readings, OPTIONS).next.find((c) => c.id === wanted);
      if (next) readings = [...readings, { ...readingOf(next, 171.6), confirmed: true }];
    }
    expect(asked[0]).toBeDefined();
    for (const id of asked) expect(asked.filter((a) => a === id && a !== undefined).length).toBeLessThanOrEqual(2);
    expect(asked.at(-1)).not.toBe(asked[0]);
  });

  it('has nothing to explain while nothing contradicts', () => {
    expect(judge(MAP, FULL, OPTIONS).explanations).toEqual([]);
  });

  it('says what the last reading changed', () => {
    const last = FULL.at(-1) as Reading;
    const words = judge(MAP, FULL, OPTIONS).changes.map((m) => say(m));
    expect(words.join(' ')).toContain('now metered');
    expect(judge(MAP, FULL.slice(0, 1), OPTIONS).changes.map((m) => m.code)).not.toContain('verify.change.metered');
    expect(last.id).not.toBe('');
  });
});

describe('other systems', () => {
  const SPLIT: readonly Said[] = [
    { id: 'p', system: 'us-dc', role: 'positive' },
    { id: 'm', system: 'us-dc', role: 'negative' },
  ];

  it('says what the taking back of a reading changed', () => {
    const full = FULL;
    const [first, ...rest] = full;
    if (!first) throw new Error('nothing to take back');
    const taken = [{ ...first, takenBack: { by: 'x', at: '2026-01-06T10:00:00Z' } }, ...rest];
    const codes = judge(MAP, taken, OPTIONS).changes.map((m) => m.code);
    expect(codes).toContain('verify.aside.taken-back');
    expect(codes).toContain('verify.change.by-color');
    // Twin: taken back before the last reading, it is that reading which is told of.
    const early = [{ ...first, takenBack: { by: 'x', at: '2026-01-01T10:00:00Z' } }, ...rest];
    expect(judge(MAP, early, OPTIONS).changes.map((m) => m.code)).not.toContain('verify.aside.taken-back');
  });

  it('DC: the sign is the polarity', () => {
    const options = { ...OPTIONS, posted: { 'us-dc': 125 } };
    const map = mapOf(SPLIT);
    const readings = asClaimed(map, options, 1);
    expect(Object.values(standings(judge(map, readings, options)))).toEqual(['metered', 'metered']);
    const turned = readings.map((r) => ({ ...r, value: typeof r.value === 'number' ? -r.value : r.value }));
    const verdict = judge(map, turned, options);
    expect(verdict.explanations[0]?.message.code).toBe('verify.explain.reversed-polarity');
    expect(verdict.map.assignments.map((x) => x.roles[0]?.role)).toEqual(['negative', 'positive']);
    // One of the readings alone is not the full set of the new roles.
    const one = judge(map, turned.slice(0, 1), options);
    expect(one.conductors.map((c) => c.standing)).toEqual(['disputed', 'disputed']);
  });

  it('isolated: both lines near half, one line at nothing is a ground fault', () => {
    const map = mapOf([
      { id: 'o', system: 'us-isolated-power', role: 'isolated conductor 1' },
      { id: 'b', system: 'us-isolated-power', role: 'isolated conductor 2' },
    ]);
    const good = asClaimed(map, OPTIONS, 1);
    expect(Object.values(standings(judge(map, good, OPTIONS)))).toEqual(['metered', 'metered']);
    const fault = good.map((r) => {
      const id = checkId(r);
      if (!id.endsWith('ground')) return r;
      return { ...r, value: id.includes('conductor o') ? 1 : 119 };
    });
    const verdict = judge(map, fault, OPTIONS);
    expect(verdict.explanations[0]?.message.code).toBe('verify.explain.ground-fault');
    expect(verdict.conductors.map((c) => c.standing)).toEqual(['disputed', 'disputed']);
  });

  it('rotation read the wrong way round disputes all three', () => {
    const options = { ...OPTIONS, motors: true };
    const readings = asClaimed(MAP, options);
    expect(standings(judge(MAP, readings, options))).toEqual(ALL_METERED);
    const turned = readings.map((r) => (r.function === 'phase rotation' ? { ...r, value: 'CBA' as const } : r));
    const found = standings(judge(MAP, turned, options));
    expect([found.a, found.b, found.c]).toEqual(['disputed', 'disputed', 'disputed']);
  });

  it('a conductor of which nothing provable is claimed never becomes metered', () => {
    const map = mapOf([{ id: 'x', system: 'us-control', role: 'control' }]);
    const reading: Reading = { ...(FULL[0] as Reading), id: 'x1', from: on('x'), to: ground, value: 24 };
    expect(judge(map, [reading], OPTIONS).conductors[0]?.standing).toBe('by color');
  });
});
