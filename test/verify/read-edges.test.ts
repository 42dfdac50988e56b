import { describe, expect, it } from 'vitest';
import { phasorDiagram, readOnDiagram } from '../../src/verify';
import { ground, mapOf, on, pole, read, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const MAP = mapOf(WYE_208);
const OPTIONS = { meter: METER };
const diagram = phasorDiagram('us-208y120');
if (!diagram) throw new Error('no diagram');

const between = (a: string, b: string): number => {
  const at = (role: string) => diagram.points.findIndex((p) => p.roles.some((r) => r === role));
  return diagram.edges.findIndex((e) => [at(a), at(b)].includes(e.from) && [at(a), at(b)].includes(e.to));
};

describe('what was read, laid on the diagram', () => {
  it('puts line, neutral and ground readings on their edges, and joins what falls on one', () => {
    const found = readOnDiagram(
      diagram,
      MAP,
      [read(on('a'), on('b'), 207), read(on('a'), on('n'), 119), read(on('a'), ground, 121)],
      OPTIONS,
    );
    expect(found).toContainEqual({
      edge: between('phase A', 'phase B'),
      low: 207,
      high: 207,
      count: 1,
      contradicts: false,
      beyondNormal: false,
    });
    expect(found).toContainEqual({
      edge: between('phase A', 'ground'),
      low: 119,
      high: 121,
      count: 2,
      contradicts: false,
      beyondNormal: false,
    });
  });

  it('marks an edge whose reading contradicts (twin)', () => {
    const [one] = readOnDiagram(diagram, MAP, [read(on('a'), on('b'), 120)], OPTIONS);
    expect(one).toMatchObject({ edge: between('phase A', 'phase B'), contradicts: true });
  });

  it('marks an edge that agrees only within range B (ANSI C84.1 utilization: 104 against 108 V, from memory)', () => {
    const [low] = readOnDiagram(diagram, MAP, [read(on('a'), on('n'), 105)], OPTIONS);
    expect(low).toMatchObject({ contradicts: false, beyondNormal: true });
    // Twin: 110 V is in range A.
    expect(readOnDiagram(diagram, MAP, [read(on('a'), on('n'), 110)], OPTIONS)[0]?.beyondNormal).toBe(false);
  });

  it('leaves out what has no edge: own pole, continuity, what no longer counts', () => {
    const back = { ...read(on('a'), on('b'), 207), takenBack: { by: 'x', at: '2026-01-05T11:00:00Z' } };
    const none = [
      read(on('a'), pole('us-208y120', 'phase A'), 0.2),
      read(on('n'), ground, 'OL', { function: 'continuity', condition: 'supply off, lifted' }),
      back,
    ];
    expect(readOnDiagram(diagram, MAP, none, OPTIONS)).toEqual([]);
  });

  it('DC is drawn once its volts are posted, and not before', () => {
    const map = mapOf([
      { id: 'p', system: 'us-pv-dc', role: 'positive' },
      { id: 'q', system: 'us-pv-dc', role: 'negative' },
    ]);
    expect(phasorDiagram('us-pv-dc', map)).toBeNull();
    expect(Math.max(...(phasorDiagram('us-pv-dc', map, { 'us-pv-dc': 400 })?.edges.map((e) => e.volts) ?? []))).toBe(
      400,
    );
  });
});
