import type { ColorName, NamedConductor, SiteKnowledge } from '../../src/flow';

/** A color read: one name, or a distribution over names. */
export type ReadColor = ColorName | Partial<Record<ColorName, number>>;

/** A conductor for tests: only what identification looks at is worth setting. */
export function conductor(id: string, color: ReadColor, more: Partial<NamedConductor> = {}): NamedConductor {
  const parts = typeof color === 'string' ? { [color]: 1 } : color;
  const candidates = (Object.entries(parts) as [ColorName, number][])
    .map(([name, probability]) => ({ name, probability }))
    .sort((a, b) => b.probability - a.probability);
  const best = candidates[0]!;
  return {
    id,
    origin: 'found',
    covering: 'insulated',
    coveringConfidence: 0.99,
    presence: 1,
    outlines: [],
    centerline: [],
    widthPx: 20,
    ends: ['unknown', 'unknown'],
    crossings: [],
    insulation: {
      best: best.name,
      confidence: best.probability,
      candidates,
      set: candidates.filter((c) => c.probability > 0.05).map((c) => c.name),
      lab: [50, 0, 0],
      doubts: [],
    },
    stripe: null,
    hiddenStripe: 0.02,
    tape: [],
    ...more,
  };
}

/** One conductor per color, called c1, c2, ... */
export const conductors = (...colors: readonly ReadColor[]): NamedConductor[] =>
  colors.map((color, i) => conductor(`c${i + 1}`, color));

export const site = (more: Partial<SiteKnowledge> = {}): SiteKnowledge => ({
  jurisdiction: 'US',
  systems: [],
  legend: [],
  groups: [],
  spaces: {},
  ...more,
});
