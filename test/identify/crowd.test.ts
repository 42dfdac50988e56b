import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type ColorName, type NamedConductor } from '../../src/flow';
import { identify, roleMarginals } from '../../src/identify';
import { posterior } from '../../src/identify/infer/posterior';
import { makeUnits } from '../../src/identify/infer/units';
import { readEvidence } from '../../src/identify/model/evidence';
import { CROWD, crowdPower } from '../../src/identify/model/priors';
import { conductor, site } from './make';
import { random } from './random';

const ids = (colors: readonly ColorName[]): NamedConductor[] =>
  colors.map((c, i) => conductor(`c${String(i).padStart(3, '0')}`, c));
const copies = (n: number): ColorName[] =>
  Array.from({ length: n }, () => ['black', 'red', 'blue', 'yellow', 'white', 'green'] as const).flat();

/** How much better (natural log) one named system explains the picture than another. */
function odds(colors: readonly ColorName[], a: string, b: string): number {
  const cs = ids(colors);
  const evidence = cs.map(readEvidence);
  const log = (system: string): number => {
    const k = site({ systems: [system] });
    const units = makeUnits(
      cs.map((c) => c.id),
      k,
    );
    return posterior(evidence, k, units).logEvidence;
  };
  return log(a) - log(b);
}

describe('a crowd', () => {
  it('has the power of a coarsened posterior, 1 up to its size (alpha / n; Miller and Dunson 2019, from memory)', () => {
    expect([1, CROWD, 2 * CROWD, 10 * CROWD].map(crowdPower)).toEqual([1, 1, 0.5, 0.1]);
  });

  it('of a hundred says no more of the system than its size does', () => {
    const [few, crowd, more] = [4, 8, 16].map((n) => odds(copies(n), 'us-208y120', 'us-480y277'));
    // 24, 48 and 96 conductors of one mixture.
    expect(crowd! / few!).toBeLessThan(1.1);
    expect(more! / few!).toBeLessThan(1.1);
    expect(more! / few!).toBeGreaterThan(0.85);
    // Twin: below its size each conductor is news.
    expect(odds(copies(4), 'us-208y120', 'us-480y277') / odds(copies(3), 'us-208y120', 'us-480y277')).toBeGreaterThan(
      1.15,
    );
  });

  it('still tells two systems in their own colors', () => {
    const set = ['black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray'] as const;
    const map = identify(ids(Array.from({ length: 12 }, () => set).flat()), site());
    const present = map.systems.filter((s) => s.probability > 0.9).map((s) => s.system);
    expect(present.sort()).toEqual(['us-208y120', 'us-480y277']);
  });

  it('read twice, with other errors, makes hardly any conductor of the same name surely another thing', () => {
    const names = COLOR_NAMES.filter((n) => n !== 'turquoise' && n !== 'green-yellow');
    const r = random(5);
    let seen = 0;
    let different = 0;
    for (let k = 0; k < 8; k++) {
      const weights = names.map(() => -Math.log(r.next()));
      const truth = Array.from({ length: 60 + r.below(60) }, () => names[r.weighted(weights)]!);
      const shot = () =>
        truth.map((name, i) => {
          const p = 0.55 + 0.45 * r.next();
          const other = r.pick(names);
          const best = r.chance(p) || other === name ? name : other;
          return conductor(`c${i}`, other === name ? name : { [best]: p, [best === name ? other : name]: 1 - p });
        });
      const [one, two] = [shot(), shot()];
      const [a, b] = [identify(one, site()), identify(two, site())];
      truth.forEach((_, i) => {
        if (one[i]!.insulation.best !== two[i]!.insulation.best) return;
        const [p, q] = [roleMarginals(a.assignments[i]!)[0], roleMarginals(b.assignments[i]!)[0]];
        if (!p || !q) return;
        seen++;
        if (p.role !== q.role && q.probability >= 0.9) different++;
      });
    }
    expect(seen).toBeGreaterThan(300);
    expect(different / seen).toBeLessThan(0.005);
  });
});
