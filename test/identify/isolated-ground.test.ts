import { describe, expect, it } from 'vitest';
import type { NamedConductor, SiteKnowledge } from '../../src/flow';
import { CONVENTIONS, identify, legendFindings, roleMarginals } from '../../src/identify';
import { conductor, conductors, site } from './make';

/*
 * NEC 250.146(D) lets a receptacle be grounded by a conductor of its own; NEC 250.119 gives every insulated equipment
 * ground green, with or without yellow stripes; that the stripe marks the isolated one is practice (all from memory).
 */
const IG = 'us-isolated-ground';
const share = (cs: readonly NamedConductor[], id: string, role: string, k: Partial<SiteKnowledge> = {}): number =>
  roleMarginals(identify(cs, site(k)).assignments.find((a) => a.conductor === id)!).find((r) => r.role === role)
    ?.probability ?? 0;
const ground = 'equipment grounding conductor';
const WYE = ['us-208y120'];

describe('an isolated ground', () => {
  it('is a convention of practice, from memory', () => {
    const [line] = CONVENTIONS.filter((c) => c.system === IG);
    expect(line).toMatchObject({ role: 'isolated ground', force: { kind: 'common practice' }, status: 'from memory' });
  });

  it('is a rival where green with yellow runs beside a plain or a bare ground, and the ordinary one comes first', () => {
    const bare = conductor('c4', { brown: 0.6, orange: 0.4 }, { covering: 'bare', coveringConfidence: 0.97 });
    for (const other of [conductor('c4', 'green'), bare]) {
      const cs = [...conductors('black', 'white', 'green-yellow'), other];
      expect(share(cs, 'c3', ground)).toBeGreaterThan(share(cs, 'c3', 'isolated ground'));
      expect(share(cs, 'c3', 'isolated ground')).toBeGreaterThan(0.02);
    }
    // Twins: plain green twice, and green with yellow alone or three times, are grounds of the site.
    const twins = [['green', 'green'], ['green-yellow'], ['green-yellow', 'green-yellow', 'green-yellow']] as const;
    for (const grounds of twins) {
      expect(share(conductors('black', 'white', ...grounds), 'c3', 'isolated ground')).toBe(0);
    }
  });

  it('is what the user says is here, and the plain one stays ordinary; never above 0.9: the color is both', () => {
    const cs = conductors('black', 'white', 'green-yellow', 'green');
    const k = { systems: [...WYE, IG] };
    expect(share(cs, 'c3', 'isolated ground', k)).toBeGreaterThan(0.7);
    expect(share(cs, 'c3', 'isolated ground', k)).toBeLessThanOrEqual(0.9);
    expect(share(cs, 'c4', ground, k)).toBeGreaterThan(0.6);
    // A stripe may be on the far side: where it is known that there is none, hardly anything is left.
    const turned = [...cs.slice(0, 3), conductor('c4', 'green', { hiddenStripe: 0 })];
    expect(share(turned, 'c4', ground, k)).toBeGreaterThan(0.9);
  });

  it('may be read as green with a yellow stripe as well', () => {
    const striped = conductor('c3', 'green', { stripe: { name: 'yellow', confidence: 0.95, layout: 'along' } });
    const cs = [...conductors('black', 'white'), striped];
    expect(share(cs, 'c3', 'isolated ground', { systems: [...WYE, IG] })).toBeGreaterThan(0.7);
  });

  it('is none outside the United States: under IEC 60445 green and yellow is the protective conductor alone', () => {
    const cs = conductors('brown', 'blue', 'green-yellow');
    for (const jurisdiction of ['IEC', 'UK', 'CN'] as const) {
      expect(share(cs, 'c3', 'isolated ground', { jurisdiction })).toBe(0);
      expect(share(cs, 'c3', ground, { jurisdiction })).toBeGreaterThan(0.9);
    }
  });

  it('breaks no rule of green and needs no stripe of isolated power', () => {
    const codes = identify(
      conductors('black', 'white', 'green-yellow', 'green'),
      site({ systems: [...WYE, IG] }),
    ).findings.map((f) => f.code);
    for (const code of ['green-as-other', 'isolated-no-stripe', 'isolated-forbidden-stripe', 'no-ground-seen']) {
      expect(codes).not.toContain(code);
    }
    expect(legendFindings([{ system: IG, role: 'isolated ground', color: 'green', stripe: 'yellow' }], 'US')).toEqual(
      [],
    );
    // Twin: a line in green is one.
    expect(legendFindings([{ system: WYE[0]!, role: 'phase A', color: 'green' }], 'US')).toHaveLength(1);
  });
});
