import { COLOR_NAMES, type ColorName } from '../../flow';
import { SURFACES } from '../palette/likelihood';
import { PALETTE_DATA } from '../palette/palette-data';
import { eachName, type Names } from './names';

/** Calibrated probabilities of one body; names and bare metal sum to 1. */
export interface Opinion {
  readonly names: Names;
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
  const names = eachName(() => 0);
  let bare = 0;
  SURFACES.forEach((surface, c) => {
    const p = c === best ? capped : real[c]! * ((1 - capped) / rest);
    if (surface === 'copper' || surface === 'tinned') bare += p;
    else names[surface] = p;
  });
  return { names, bare };
}

/** The same opinion with its best name no surer than `ceiling` (0 to 1); what it loses goes to
 * the others by their usual shares. */
export function capped(opinion: Opinion, ceiling: number): Opinion {
  const { names, bare } = opinion;
  const best = COLOR_NAMES.reduce((x, y) => (names[y] > names[x] ? y : x));
  if (names[best] <= ceiling) return opinion;
  const lost = names[best] - ceiling;
  const usual = COLOR_NAMES.reduce((sum, name) => sum + (name === best ? 0 : PALETTE_DATA[name].prior), 0);
  const of = (name: ColorName): number =>
    name === best ? ceiling : names[name] + (lost * PALETTE_DATA[name].prior) / usual;
  return { names: eachName(of), bare };
}

function temper(p: Float64Array, temperature: number): Float64Array {
  const raised = p.map((v) => Math.max(1e-9, v) ** (1 / temperature));
  const total = raised.reduce((sum, v) => sum + v, 0);
  return raised.map((v) => v / total);
}
