import { COLOR_NAMES, type ColorName } from '../../flow';
import { SURFACES } from '../palette/likelihood';

/** Probabilities of one body before calibration; names and bare metal sum to 1. */
export interface Opinion {
  readonly names: Record<ColorName, number>;
  readonly bare: number;
}

/** Names given insulated (weighted by it) and the probability of bare metal, never surer than any better photo would be. */
export function opinionOf(ladder: readonly Float64Array[]): Opinion {
  const real = ladder[ladder.length - 1]!;
  let best = 0;
  for (let c = 1; c < real.length; c++) if (real[c]! > real[best]!) best = c;
  const capped = Math.min(...ladder.map((p) => p[best]!));
  const rest = Math.max(1e-12, 1 - real[best]!);
  const names = Object.fromEntries(COLOR_NAMES.map((n) => [n, 0])) as Record<ColorName, number>;
  let bare = 0;
  SURFACES.forEach((surface, c) => {
    const p = c === best ? capped : real[c]! * ((1 - capped) / rest);
    if (surface === 'copper' || surface === 'tinned') bare += p;
    else names[surface] = p;
  });
  return { names, bare };
}
