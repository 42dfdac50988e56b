import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type ColorName, type NamedConductor, type SiteKnowledge } from '../../src/flow';
import { type Posterior, posterior } from '../../src/identify/infer/posterior';
import { makeUnits } from '../../src/identify/infer/units';
import { readEvidence } from '../../src/identify/model/evidence';
import { cases, some } from '../cases';
import { conductor, site } from './make';
import { type BruteForce, bruteForce } from './oracle';
import { type Random, random } from './random';

const SYSTEMS = ['us-120-240-1ph', 'us-208y120', 'us-480y277', 'us-240-120-high-leg', 'us-isolated-power', 'us-dc'];

function anyConductor(r: Random, id: string): NamedConductor {
  const p = 0.4 + 0.6 * r.next();
  const first = r.pick(COLOR_NAMES);
  const second = r.pick(COLOR_NAMES.filter((c) => c !== first));
  const colors: Partial<Record<ColorName, number>> = { [first]: p, [second]: (1 - p) * r.next() };
  return conductor(id, colors, {
    covering: r.chance(0.1) ? 'bare' : 'insulated',
    coveringConfidence: 0.6 + 0.4 * r.next(),
    presence: r.chance(0.2) ? r.next() : 1,
    hiddenStripe: 0.3 * r.next(),
    stripe: r.chance(0.25) ? { name: r.pick(COLOR_NAMES), confidence: r.next(), layout: 'along' } : null,
    tape: r.chance(0.2) ? [{ name: r.pick(COLOR_NAMES), confidence: r.next(), at: [0, 0] }] : [],
  });
}

/** ORACLE_TIMES=10 npx vitest run test/identify/oracle.test.ts: thousands of cases instead of hundreds. */
const TIMES = Number(process.env.ORACLE_TIMES ?? 1);
const PATIENCE = 120_000 * TIMES;

interface Case {
  readonly conductors: readonly NamedConductor[];
  readonly knowledge: SiteKnowledge;
}

function anyCase(r: Random, most: number, systems: number): Case {
  const conductors = Array.from({ length: systems > 2 ? most : 1 + r.below(most) }, (_, i) => anyConductor(r, `c${i}`));
  const ids = conductors.map((c) => c.id);
  const named = [...SYSTEMS].sort(() => r.next() - 0.5).slice(0, systems);
  const tied = ids.filter(() => r.chance(0.5));
  return {
    conductors,
    knowledge: site({
      systems: named,
      groups: r.chance(0.4) ? [{ kind: r.pick(['circuit', 'breaker', 'cable'] as const), conductors: tied }] : [],
      spaces: r.chance(0.3)
        ? Object.fromEntries(ids.filter(() => r.chance(0.5)).map((id) => [id, 1 + r.below(12)]))
        : {},
      legend: r.chance(0.3)
        ? [{ system: named[0]!, role: 'equipment grounding conductor', color: r.pick(COLOR_NAMES) }]
        : [],
    }),
  };
}

function prepare({ conductors, knowledge }: Case) {
  const evidence = conductors.map(readEvidence);
  return {
    evidence,
    knowledge,
    units: makeUnits(
      conductors.map((c) => c.id),
      knowledge,
    ),
  };
}

/** Largest difference of any probability. */
function difference(found: Posterior, truth: BruteForce): number {
  let worst = 0;
  const width = found.columns.length;
  for (let i = 0; i * width < found.roles.length; i++) {
    found.columns.forEach(({ system, role }, c) => {
      const want = truth.roles.get(`${i}/${system}/${role}`) ?? 0;
      worst = Math.max(worst, Math.abs(want - found.roles[i * width + c]!));
    });
  }
  for (const [system, p] of truth.systems) worst = Math.max(worst, Math.abs(p - (found.systems.get(system) ?? 0)));
  return worst;
}

describe('against brute force', () => {
  it.each([
    ['one system, up to 2 conductors', cases(500 * TIMES), 2, 1],
    ['one system, up to 3 conductors', cases(60 * TIMES), 3, 1],
    ['two systems, up to 2 conductors', cases(50 * TIMES), 2, 2],
    ['two systems, up to 3 conductors', cases(4 * TIMES), 3, 2],
    ['one system, up to 4 conductors', cases(5 * TIMES), 4, 1],
    ['three systems, up to 2 conductors', 3 * TIMES, 2, 3],
    ['three systems, up to 3 conductors', TIMES, 3, 3],
  ])(
    '%s: %i random cases agree to 1e-9',
    (_, count, most, systems) => {
      const r = random(count + systems);
      let worst = 0;
      for (let k = 0; k < count; k++) {
        const { evidence, knowledge, units } = prepare(anyCase(r, most, systems));
        const found = posterior(evidence, knowledge, units, { skip: 0, singleSetLimit: 16 });
        worst = Math.max(worst, difference(found, bruteForce(evidence, knowledge, units)));
      }
      expect(worst).toBeLessThan(1e-9);
    },
    PATIENCE,
  );

  it('twin: a conductor read as another color does not agree', () => {
    const r = random(5);
    const one = anyCase(r, 1, 1);
    const { evidence, knowledge, units } = prepare(one);
    const other = prepare({ ...one, conductors: [conductor('c0', 'white')] });
    const found = posterior(other.evidence, knowledge, units, { skip: 0, singleSetLimit: 16 });
    expect(difference(found, bruteForce(evidence, knowledge, units))).toBeGreaterThan(1e-3);
  });
});

describe('gap of the approximations', () => {
  const gap = (a: Posterior, b: Posterior): number => {
    let worst = 0;
    a.roles.forEach((p, i) => {
      worst = Math.max(worst, Math.abs(p - b.roles[i]!));
    });
    for (const [s, p] of a.systems) worst = Math.max(worst, Math.abs(p - (b.systems.get(s) ?? 0)));
    return worst;
  };

  it(
    'skipping weak hypotheses moves no probability by more than their summed bound',
    () => {
      const r = random(77);
      for (let k = 0; k < cases(3); k++) {
        const conductors = Array.from({ length: 1 + r.below(9) }, (_, i) => anyConductor(r, `c${i}`));
        const { evidence, knowledge, units } = prepare({ conductors, knowledge: site() });
        const exact = posterior(evidence, knowledge, units, { skip: 0, singleSetLimit: 16 });
        const usual = posterior(evidence, knowledge, units);
        expect(usual.skipped).toBeLessThan(0.01);
        expect(gap(exact, usual)).toBeLessThanOrEqual(usual.skipped + 1e-12);
      }
    },
    PATIENCE,
  );

  it(
    'leaving the single set out beyond its limit moves no probability by more than one in a hundred',
    () => {
      const colors = ['black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray', 'green', 'green'] as const;
      for (const n of some([17, 20])) {
        const many = Array.from({ length: n }, (_, i) => conductor(`c${i}`, colors[i % colors.length]!));
        const { evidence, knowledge, units } = prepare({ conductors: many, knowledge: site() });
        const exact = posterior(evidence, knowledge, units, { skip: 1e-6, singleSetLimit: n });
        const usual = posterior(evidence, knowledge, units, { skip: 1e-6, singleSetLimit: 16 });
        expect(gap(exact, usual), `${n} conductors`).toBeLessThan(0.01);
      }
    },
    PATIENCE,
  );

  it('three systems in a crowd lose the single set: the likeliest system and role of nearly all stay, and no probability moves by more than 0.4', () => {
    const systems = ['us-208y120', 'us-480y277', 'us-240-120-high-leg'];
    const colors = ['black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray', 'green'] as const;
    const cs = Array.from({ length: 13 }, (_, i) => conductor(`c${i}`, colors[i % colors.length]!));
    const { evidence, knowledge, units } = prepare({ conductors: cs, knowledge: site({ systems }) });
    const exact = posterior(evidence, knowledge, units, { skip: 1e-3, singleSetLimit: 16, threeSets: true });
    const usual = posterior(evidence, knowledge, units, { skip: 1e-3, singleSetLimit: 16 });
    expect(gap(exact, usual)).toBeLessThan(0.4);
    // The two do differ, or the crowd was none.
    expect(gap(exact, usual)).toBeGreaterThan(1e-3);
    const best = (p: Posterior): number[] =>
      cs.map((_, i) => {
        const row = [...p.roles.subarray(i * p.columns.length, (i + 1) * p.columns.length)];
        return row.indexOf(Math.max(...row));
      });
    const turned = best(usual).filter((c, i) => c !== best(exact)[i]);
    expect(turned.length).toBeLessThanOrEqual(3);
  });

  it('three named systems are all seen at once; twin: with two named, the third never is', () => {
    const colors = ['black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray'] as const;
    const cs = [
      ...colors.map((c, i) => conductor(`c${i}`, c)),
      conductor('s', 'orange', { stripe: { name: 'violet', confidence: 0.95, layout: 'along' } }),
    ];
    const all = ['us-208y120', 'us-480y277', 'us-isolated-power'];
    const of = (systems: readonly string[]) => {
      const { evidence, knowledge, units } = prepare({ conductors: cs, knowledge: site({ systems }) });
      return posterior(evidence, knowledge, units).systems;
    };
    for (const id of all) expect(of(all).get(id)!, id).toBeGreaterThan(0.9);
    expect(of(all.slice(0, 2)).get('us-isolated-power')).toBeUndefined();
  });

  it('twin: leaving it out for a handful of conductors moves much more', () => {
    const few = ['black', 'red', 'blue', 'white'].map((c, i) => conductor(`c${i}`, c as ColorName));
    few[1] = conductor('c1', { red: 0.4, blue: 0.3, black: 0.3 });
    const { evidence, knowledge, units } = prepare({ conductors: few, knowledge: site() });
    const exact = posterior(evidence, knowledge, units, { skip: 0, singleSetLimit: 16 });
    const rough = posterior(evidence, knowledge, units, { skip: 0, singleSetLimit: 0 });
    expect(gap(exact, rough)).toBeGreaterThan(0.01);
  });
});
