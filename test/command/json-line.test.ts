import { describe, expect, it } from 'vitest';
import { jsonLine } from '../../src/command/json-line';
import type { InsulationColor, NamedConductor } from '../../src/flow';
import { conductor } from '../record/sample-job';
import { doubled } from './stub-engine';

const BLUE: InsulationColor = {
  best: 'blue',
  confidence: 0.93,
  candidates: [{ name: 'blue', probability: 0.93 }],
  set: ['blue'],
  lab: [30, 10, -50],
  doubts: [],
};

const taped: NamedConductor = {
  ...conductor('c1'),
  tape: [{ name: 'blue', confidence: 0.8, at: [6, 6], stretch: [0.5, 0.75], cover: 0.96 }],
  along: {
    bare: [{ stretch: [0, 0.1], confidence: 0.9, diameters: 3.04, metal: 'copper', place: 'end' }],
    fading: null,
    diameters: 30.44,
  },
};

const probe = (touched: InsulationColor | null) =>
  (JSON.parse(jsonLine(doubled('p.jpg'), [{ at: [4, 6], conductor: taped, touched }])) as { probes: unknown[] })
    .probes[0];

describe('a probe on tape', () => {
  it('answers with the tape, says so, and gives the insulation beneath', () => {
    expect(probe(BLUE)).toMatchObject({
      conductor: {
        pointedAt: 'tape',
        insulation: { best: 'blue' },
        beneath: { best: taped.insulation.best },
        tape: [{ name: 'blue', stretch: [0.5, 0.75], cover: 0.96 }],
        along: { diameters: 30.4, bare: [{ metal: 'copper', place: 'end', diameters: 3 }] },
      },
    });
  });
  it('twin: beside the tape it answers with the insulation and has nothing beneath', () => {
    const answer = probe(null) as { conductor: Record<string, unknown> };
    expect(answer.conductor).toMatchObject({ insulation: { best: taped.insulation.best } });
    expect(answer.conductor).not.toHaveProperty('beneath');
    expect(answer.conductor).not.toHaveProperty('pointedAt');
  });
});
