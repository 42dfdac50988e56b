import { COLOR_NAMES, type ColorName } from '../../flow';
import { SURFACES } from '../palette/likelihood';

/** Calibrated probabilities of one body; names and bare metal sum to 1. */
export interface Opinion {
  readonly names: Record<ColorName, number>;
  readonly bare: number;
}

/**
 * Calibrated probabilities from a ladder of qualities (the last is the real one), raised to 1 / temperature. The best
 * name is never surer than at any better quality; what it loses is shared by the others.
 */
export function opinionOf(ladder: readonly Float64Array[], temperature: number): Opinion {
  const steps = ladder.map((p) => temper(p, temperature));
  const real = steps[steps.length - 1]!;
  let best = 0;
  for (let c = 1; c < real.length; c++) if (real[c]! > real[best]!) best = c;
  const capped = Math.min(...steps.map((p) => p[best]!));
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

function temper(p: Float64Array, temperature: number): Float64Array {
  const raised = p.map((v) => Math.max(1e-9, v) ** (1 / temperature));
  const total = raised.reduce((sum, v) => sum + v, 0);
  return raised.map((v) => v / total);
}
