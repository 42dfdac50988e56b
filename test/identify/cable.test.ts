import { describe, expect, it } from 'vitest';
import { identify, roleMarginals } from '../../src/identify';
import { conductor, conductors, site } from './make';

const bare = (id: string) => conductor(id, { brown: 0.6, orange: 0.4 }, { covering: 'bare', coveringConfidence: 0.97 });
const tops = (cs: Parameters<typeof identify>[0]) =>
  identify(cs, site()).assignments.map((a) => roleMarginals(a).slice(0, 2));

/**
 * Two-wire cable has a black and a white conductor and a bare ground, on whichever line its breaker lies (common practice,
 * no source; black and white as the colors of two-conductor cable: UL 719, from memory).
 */
describe('work in cable', () => {
  it('shows by its bare grounds, and then black says nothing of the line', () => {
    const all = tops([...conductors('black', 'white', 'black', 'white'), bare('g1'), bare('g2')]);
    const [black, white] = all;
    expect(new Set(black!.map((r) => r.role))).toEqual(new Set(['line 1', 'line 2']));
    expect(black![0]!.probability).toBeLessThan(0.6);
    expect(white![0]).toMatchObject({ role: 'grounded conductor' });
    expect(all[4]![0]!.role).toBe('equipment grounding conductor');
    expect(all[4]![0]!.probability).toBeGreaterThan(0.9);
  });
  it('makes black and red of three-wire cable less sure of their lines than the same pulled with a green', () => {
    const cabled = tops([...conductors('black', 'red', 'white'), bare('g')]);
    const pulled = tops(conductors('black', 'red', 'white', 'green'));
    expect(cabled[0]![0]!.probability).toBeLessThan(pulled[0]![0]!.probability - 0.08);
    // Twin: the colors still count, and pulled ones are told apart.
    expect(cabled[0]![0]!.role).toBe('line 1');
    expect(pulled[0]![0]!.probability).toBeGreaterThan(0.8);
  });
  it('twin: a bare ground makes no cable of brown, orange and yellow', () => {
    const [brown] = tops([...conductors('brown', 'orange', 'yellow', 'gray'), bare('g')]);
    expect(brown![0]!.role).toBe('phase A');
    expect(brown![0]!.probability).toBeGreaterThan(0.85);
  });
});
