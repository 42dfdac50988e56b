import { describe, expect, it } from 'vitest';
import type { Cov2 } from '../../src/color/gaussian';
import { observeScene, priorModes } from '../../src/color/light/estimate-light';
import type { LightMode } from '../../src/color/light/types';

/** What statistics and network say of an invented close-up of red and yellow under bluish light, ln r/g and ln b/g. */
const STATISTICS = [-0.02, -0.5] as const;
const NETWORK = [-0.39, 0.58] as const;
const NETWORK_ERROR: Cov2 = [0.008, -0.006, 0.014];
const bluish = (prior: readonly LightMode[]): number =>
  observeScene(observeScene(prior, STATISTICS), NETWORK, NETWORK_ERROR, 0.12)
    .filter((m) => m.mean[0] < -0.2 && m.mean[1] > 0.2)
    .reduce((sum, m) => sum + m.weight, 0);

describe('a white balance gone astray', () => {
  it('stays possible where one reading of the light says so and another does not', () => {
    expect(bluish(priorModes())).toBeGreaterThan(0.08);
  });

  it('twin: under a prior that is tight round neutral it does not', () => {
    expect(bluish([{ weight: 1, mean: [0, 0], cov: [0.0075, -0.0058, 0.0095] }])).toBeLessThan(0.02);
  });

  it('is no more than a few percent where both say neutral', () => {
    const modes = observeScene(observeScene(priorModes(), [0, 0]), [0, 0], NETWORK_ERROR, 0.12);
    const far = modes.filter((m) => Math.hypot(...m.mean) > 0.2).reduce((sum, m) => sum + m.weight, 0);
    expect(far).toBeLessThan(0.03);
  });
});
