import { describe, expect, it } from 'vitest';
import type { PhaseMap, Reading } from '../../src/flow';
import { infer, logStructure, statePrior } from '../../src/verify/infer';
import { LEVEL_LOG_PRIOR, logLikelihood } from '../../src/verify/likelihood';
import { modelsFor } from '../../src/verify/models';
import { sightOf } from '../../src/verify/sight';
import type { State } from '../../src/verify/state';
import { type Variant, variantsOf } from '../../src/verify/variant';
import { ground, mapOf, on, read, type Said } from './fixtures';
import { METER } from './sim/probe';

const SAID: readonly Said[] = [
  { id: 'a', system: 'us-208y120', role: 'phase A', probability: 0.6 },
  { id: 'n', system: 'us-208y120', role: 'grounded conductor', probability: 0.7 },
];

/** Every pair of states of every supply, added up without any cut. A second odd fault is left out there too. */
function enumerate(map: PhaseMap, readings: readonly Reading[]): Map<string, number> {
  const weight = new Map<string, number>();
  let id = 1_000_000;
  const variants: Variant[] = variantsOf(map, modelsFor(map));
  for (const variant of variants) {
    const priors = ['a', 'n'].map((c) => statePrior(map, c, variant));
    for (const [i, x] of variant.states.entries())
      for (const [j, y] of variant.states.entries()) {
        if (x.blur > 0 && y.blur > 0) continue;
        const levels = LEVEL_LOG_PRIOR.map((p) => p);
        for (const reading of readings) {
          const pick = [reading.from, reading.to].map((p): State | null =>
            p.kind === 'conductor' ? (p.conductor === 'a' ? x : y) : null,
          );
          // A number of its own for each, so that nothing is shared with what the room has kept.
          id += 1;
          const row = logLikelihood({ ...reading }, sightOf(reading, pick, variant), id, METER);
          for (const [l, v] of row.entries()) levels[l] = (levels[l] ?? 0) + v;
        }
        const prior =
          variant.logPrior + (priors[0]?.[i] ?? 0) + (priors[1]?.[j] ?? 0) + logStructure(map, ['a', 'n'], [x, y]);
        const total = levels.reduce((sum, l) => sum + Math.exp(l + prior), 0);
        const key = `${x.role} / ${y.role}`;
        weight.set(key, (weight.get(key) ?? 0) + total);
      }
  }
  const sum = [...weight.values()].reduce((s, w) => s + w, 0);
  return new Map([...weight].map(([k, w]) => [k, w / sum]));
}

function found(map: PhaseMap, readings: readonly Reading[]): Map<string, number> {
  const weight = new Map<string, number>();
  for (const world of infer(map, readings, modelsFor(map), METER)[0]?.worlds ?? []) {
    const key = `${world.states.get('a')?.role} / ${world.states.get('n')?.role}`;
    weight.set(key, (weight.get(key) ?? 0) + world.probability);
  }
  return weight;
}

const CASES: readonly (readonly [string, readonly Reading[]])[] = [
  ['an ordinary reading between them', [read(on('a'), on('n'), 118)]],
  ['one to ground and one between', [read(on('a'), ground, 119), read(on('a'), on('n'), 1)]],
  ['a half voltage', [read(on('n'), ground, 58), read(on('a'), on('n'), 64)]],
  ['a slip of the digits', [read(on('a'), ground, 121), read(on('a'), on('n'), 12)]],
];

describe('inference against plain enumeration', () => {
  const map = mapOf(SAID);

  it.each(CASES)('%s', (_, readings) => {
    const exact = enumerate(map, readings);
    const beam = found(map, readings);
    const keys = new Set([...exact.keys(), ...beam.keys()]);
    const distance = [...keys].reduce((sum, k) => sum + Math.abs((exact.get(k) ?? 0) - (beam.get(k) ?? 0)), 0) / 2;
    expect(distance).toBeLessThan(0.02);
  });

  it('differs from enumeration of another reading', () => {
    // Twin: the distance must be able to be large.
    const exact = enumerate(map, [read(on('a'), ground, 119), read(on('a'), on('n'), 118)]);
    const beam = found(map, [read(on('a'), ground, 1), read(on('a'), on('n'), 118)]);
    const distance = [...exact].reduce((sum, [k, p]) => sum + Math.abs(p - (beam.get(k) ?? 0)), 0) / 2;
    expect(distance).toBeGreaterThan(0.3);
  });
});
