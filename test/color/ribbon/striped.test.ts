import { describe, expect, it } from 'vitest';
import { readMarks } from '../../../src/color/ribbon/marks';
import { makeFine } from './make-fine';

describe('whether a conductor is striped', () => {
  const striped = (where: (i: number, t: number) => boolean): number =>
    readMarks(makeFine({ body: [0.7, 0.7, 0.7], on: [{ rgb: [0.02, 0.08, 0.4], where }], widthPx: 24 })).striped;

  it('is surer of a line along it than of nothing at all, and always a probability', () => {
    const none = striped(() => false);
    const line = striped((_, t) => Math.abs(t) < 0.2);
    expect(line).toBeGreaterThan(none);
    expect(line).toBeGreaterThan(0.5);
    expect(none).toBeLessThan(0.2);
    for (const p of [none, line]) {
      expect(p).toBeGreaterThanOrEqual(0);
      expect(p).toBeLessThanOrEqual(1);
    }
  });

  it('twin: a plain one has no tape and no bare metal either', () => {
    const { tapes, bare, cells, body } = readMarks(makeFine({ body: [0.42, 0.025, 0.03], widthPx: 24 }));
    expect(tapes).toEqual([]);
    expect(bare).toEqual([]);
    expect(body.length).toBeGreaterThan(cells.ok.length / 2);
  });
});
