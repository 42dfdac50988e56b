import { describe, expect, it } from 'vitest';
import { ACTIONS, advise, nameInsulations } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import type { LightMode } from '../../src/color/light/types';
import { say } from '../../src/words';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

const facts = { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 } as const;
const usual = summarize(priorModes(), facts);
const known: LightMode = { weight: 1, mean: [0, 0], cov: [1e-4, 0, 1e-4] };
const bodyOf = (recipe: RibbonRecipe) => nameInsulations([makeRibbon(recipe)], usual).readings[0]!.body!;

describe('what would help most', () => {
  it('lists every action once, by falling gain, each with a sentence', () => {
    const advice = advise(bodyOf({ body: [0.3, 0.28, 0.2] }), usual);
    expect(advice.map((a) => a.action).sort()).toEqual([...ACTIONS].sort());
    expect(advice.map((a) => a.gain)).toEqual(advice.map((a) => a.gain).sort((a, b) => b - a));
    for (const { message, gain } of advice) {
      expect(say(message)).not.toBe(message.code);
      expect(gain).toBeGreaterThanOrEqual(0);
      expect(gain).toBeLessThanOrEqual(1);
    }
  });
  const gainOf = (recipe: RibbonRecipe, action: (typeof ACTIONS)[number], light = usual) =>
    advise(bodyOf(recipe), light).find((a) => a.action === action)!.gain;
  it('a white reference is worth more the less the light is known', () => {
    const between = { body: [0.1, 0.13, 0.19] } as const;
    expect(gainOf(between, 'white reference')).toBeGreaterThan(
      gainOf(between, 'white reference', summarize([known], facts)) + 0.01,
    );
  });
  it('coming closer helps a thin conductor, not a wide one', () => {
    const recipe = { body: [0.1, 0.03, 0.02] } as const;
    expect(gainOf({ ...recipe, widthPx: 4, blurPx: 2 }, 'come closer')).toBeGreaterThan(
      gainOf({ ...recipe, widthPx: 40, blurPx: 0.7 }, 'come closer') + 0.02,
    );
  });
  it('more light helps in the dark, not on a clean photo', () => {
    const recipe = { body: [0.02, 0.05, 0.12] } as const;
    expect(gainOf({ ...recipe, exposure: 0.1, noise: 0.03 }, 'more light')).toBeGreaterThan(
      gainOf({ ...recipe, noise: 0.003 }, 'more light') + 0.02,
    );
  });
});
