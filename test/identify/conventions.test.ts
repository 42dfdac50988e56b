import { describe, expect, it } from 'vitest';
import { CONVENTIONS, type Look, SYSTEMS } from '../../src/identify';
import published from '../published/conductor-conventions.json';

interface PublishedLook {
  readonly color: string;
  readonly stripe?: string;
}
interface PublishedConvention {
  readonly id: string;
  readonly modeledAs: readonly string[];
  readonly scheme: string;
  readonly roles: Readonly<Record<string, readonly PublishedLook[]>>;
  readonly status: string;
}
const PUBLISHED = published.conventions as unknown as readonly PublishedConvention[];

/** The first role of a published convention that the data here does not have, or null. */
function gap(entry: PublishedConvention): string | null {
  for (const system of entry.modeledAs) {
    for (const [role, looks] of Object.entries(entry.roles)) {
      const here: Look[] = CONVENTIONS.filter(
        (c) => c.system === system && c.role === role && (c.scheme === entry.scheme || c.scheme === 'habit'),
      ).flatMap((c) => [...c.looks]);
      for (const look of looks) {
        const found = here.some((l) => l.color === look.color && (l.stripe ?? null) === (look.stripe ?? null));
        if (!found) return `${system} ${role}: ${look.color}${look.stripe ? ` with ${look.stripe} stripe` : ''}`;
      }
    }
  }
  return null;
}

describe('published conventions (test/published/conductor-conventions.json, sources there)', () => {
  it.each(PUBLISHED.map((e) => [e.id, e] as const))('%s is in the data', (_, entry) => {
    expect(gap(entry)).toBeNull();
  });

  it.each(PUBLISHED.map((e) => [e.id, e] as const))('twin: %s with a turquoise conductor is not', (_, entry) => {
    const [role] = Object.keys(entry.roles);
    const wrong = { ...entry, roles: { ...entry.roles, [role!]: [{ color: 'turquoise' }] } };
    expect(gap(wrong)).toContain('turquoise');
  });

  it('gives every line a source, and every code rule a section and an edition', () => {
    for (const c of CONVENTIONS) {
      expect(c.source.length, c.id).toBeGreaterThan(3);
      if (c.force.kind === 'code rule') expect(c.force.section && c.force.edition, c.id).toBeTruthy();
    }
  });

  it('names each line once and speaks of known systems and their roles only', () => {
    const ids = CONVENTIONS.map((c) => c.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const c of CONVENTIONS) {
      expect(SYSTEMS[c.system], c.id).toBeDefined();
      expect(SYSTEMS[c.system]?.roles, c.id).toContain(c.role);
      expect(SYSTEMS[c.system]?.jurisdiction, c.id).toBe(c.jurisdiction);
    }
  });

  it('gives every role of every system a color', () => {
    for (const s of Object.values(SYSTEMS)) {
      for (const role of s.roles) {
        expect(
          CONVENTIONS.some((c) => c.system === s.id && c.role === role && c.scheme === 'habit'),
          `${s.id} ${role}`,
        ).toBe(true);
      }
    }
  });

  it('keeps the Canadian high leg on A and red, the United States one on B and orange', () => {
    const line = (system: string) => CONVENTIONS.find((c) => c.system === system && c.role === 'high leg');
    expect(line('ca-240-120-high-leg')?.looks[0]?.color).toBe('red');
    expect(SYSTEMS['ca-240-120-high-leg']?.roles[0]).toBe('high leg');
    expect(line('us-240-120-high-leg')?.looks[0]?.color).toBe('orange');
    expect(SYSTEMS['us-240-120-high-leg']?.roles[1]).toBe('high leg');
  });
});

describe('every convention', () => {
  it('says what binds to it, where that is from, and whether the source was read', () => {
    for (const { id, force, source, status } of CONVENTIONS) {
      expect(['code rule', 'common practice', 'local'], id).toContain(force?.kind);
      expect(source?.length, id).toBeGreaterThan(3);
      expect(['read', 'from memory', 'common practice, no source'], id).toContain(status);
    }
  });
});
