import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type UserWord } from '../../src/flow';
import { identify, roleMarginals } from '../../src/identify';
import { COLOR_INDEX } from '../../src/identify/model/aging';
import { readEvidence } from '../../src/identify/model/evidence';
import { conductor, site } from './make';

const by = { by: 'invented tester', at: '2026-01-05T10:00:00Z' };
const word = (more: Partial<UserWord>): UserWord => ({ name: 'orange', ...by, ...more });
const stripe = { name: 'brown', confidence: 0.7, layout: 'along' } as const;

describe('what the user saw', () => {
  const spread = (userWord?: UserWord) => {
    const { body } = readEvidence(conductor('c', 'orange', userWord ? { userWord } : {}));
    return { top: body[COLOR_INDEX.orange]!, other: body[COLOR_INDEX.violet]! };
  };

  it('a name is believed nearly wholly; "not decided" flattens the reading, and never sharpens it', () => {
    const plain = spread();
    const undecided = spread(word({ name: 'not decided' }));
    expect(undecided.top).toBeLessThan(plain.top);
    expect(undecided.other).toBeGreaterThan(plain.other);
    expect(undecided.top).toBeGreaterThan(undecided.other);
    const violet = spread(word({ name: 'violet' }));
    expect(violet.other).toBeGreaterThan(10 * violet.top);
  });

  it('a stripe that the eye saw counts like one surely read; one that it ruled out is gone, read or not', () => {
    const read = readEvidence(conductor('c', 'orange', { stripe }));
    const seen = readEvidence(conductor('c', 'orange', { userWord: word({ stripe: 'brown' }) }));
    const none = readEvidence(conductor('c', 'orange', { stripe, userWord: word({ stripe: null }) }));
    const brown = COLOR_INDEX.brown;
    expect(seen.striped[brown]! / seen.plain).toBeGreaterThan(read.striped[brown]! / read.plain);
    expect(none.striped[brown]! / none.plain).toBeLessThan(0.05);
    // Twin: where the word leaves stripes out, the reading stands.
    expect(readEvidence(conductor('c', 'orange', { stripe, userWord: word({}) })).striped).toEqual(read.striped);
  });

  it('tape that it ruled out is gone, tape that it named is there', () => {
    const tape = [{ name: 'red', confidence: 0.8, at: [0, 0], cover: 1 }] as const;
    expect(readEvidence(conductor('c', 'black', { tape })).taped).toBeGreaterThan(0.5);
    expect(readEvidence(conductor('c', 'black', { tape, userWord: word({ tape: null }) })).taped).toBe(0);
    const named = readEvidence(conductor('c', 'black', { userWord: word({ tape: 'blue' }) }));
    expect(named.taped).toBeGreaterThan(0.9);
    expect(named.tape?.indexOf(Math.max(...named.tape))).toBe(COLOR_INDEX.blue);
  });

  it('an orange with the violet stripe that isolated power wears (NEC 517.160(A)(5), read) is taken for that once seen', () => {
    const isolated = (userWord?: UserWord): number => {
      const map = identify([conductor('c', 'orange', userWord ? { userWord } : {})], site());
      return roleMarginals(map.assignments[0]!)
        .filter((m) => m.role.startsWith('isolated'))
        .reduce((sum, m) => sum + m.probability, 0);
    };
    expect(isolated(word({ stripe: 'violet' }))).toBeGreaterThan(isolated() + 0.2);
    expect(isolated(word({ stripe: null }))).toBeLessThanOrEqual(isolated() + 1e-9);
  });

  it('odd numbers are clamped: a reading is never negative, and never worth more than all', () => {
    const odd = readEvidence({
      ...conductor('c', 'red', { presence: 7, coveringConfidence: -2, stripe: { ...stripe, confidence: 9 } }),
    });
    for (const v of [odd.plain, odd.bare, odd.insulated, odd.presence, ...odd.body, ...odd.striped]) {
      expect(Number.isFinite(v)).toBe(true);
      expect(v).toBeGreaterThanOrEqual(0);
    }
    expect(odd.presence).toBeLessThanOrEqual(1);
    expect(odd.body).toHaveLength(COLOR_NAMES.length);
  });
});
