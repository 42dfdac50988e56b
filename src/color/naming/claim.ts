import type { Ribbon } from '../../flow';
import type { LightPosterior } from '../light/types';
import { ofColor } from '../ribbon/mode';
import { coreColumns, coreOf, sampleOf } from '../ribbon/samples';
import { nameInsulations, type RibbonReading } from './name-insulations';
import { probabilityOf } from './names';
import { cut } from './stretches';

/** A row with this share of its core in the body's color shows the conductor: the rest is stripe, print or shine. Assumed. */
const ENOUGH = 0.25;
/** As many widths of another color between two stretches of the body's are tape on it; tracing too follows no longer ones. */
const BAND = 4;
/** A stretch belongs to the name that its own pixels make more probable than not. */
const OWN = 0.5;

/** Per row, 1 where nothing of the body's color shows in the core. Rows that cannot be read are not strange. */
function strangeRows(ribbon: Ribbon, { body }: RibbonReading): Uint8Array {
  const rows = new Uint8Array(ribbon.length);
  if (!body) return rows;
  const isBody = ofColor(sampleOf(...body.rgb), ribbon.noise);
  const columns = coreColumns(ribbon.across, coreOf(ribbon.widthPx, ribbon.blurPx));
  for (let row = 0; row < ribbon.length; row++) {
    let seen = 0;
    let own = 0;
    for (const j of columns) {
      const at = row * ribbon.across + j;
      if (!ribbon.usable[at]) continue;
      seen++;
      if (isBody(sampleOf(ribbon.rgb[at * 3]!, ribbon.rgb[at * 3 + 1]!, ribbon.rgb[at * 3 + 2]!))) own++;
    }
    rows[row] = own < ENOUGH * seen ? 1 : 0;
  }
  return rows;
}

/** Rows `from` to `to` of the ribbon with the index `of`. */
interface Run {
  readonly of: number;
  readonly from: number;
  readonly to: number;
}

/** Strange stretches at an end, and those too long for a band. */
function runsOf(ribbon: Ribbon, strange: Uint8Array, of: number): Run[] {
  const longest = (BAND * ribbon.widthPx) / Math.max(0.1, ribbon.stepPx);
  const runs: Run[] = [];
  for (let from = strange.indexOf(1); from >= 0; ) {
    const end = strange.indexOf(0, from);
    const to = end < 0 ? strange.length : end;
    if (from === 0 || to === strange.length || to - from >= longest) runs.push({ of, from, to });
    from = strange.indexOf(1, to);
  }
  return runs;
}

/**
 * Which rows of each ribbon a conductor may claim under its name (1): not those at an end, or for longer than a band, where
 * nothing of its color shows and whose own reading doubts the name. There the trace has run on over something else, or
 * what lies there cannot be told.
 *
 * Takes the ribbons, their readings in the same order, and the light those were made under. Null where all rows are its own.
 */
export function claimedRows(
  ribbons: readonly Ribbon[],
  readings: readonly RibbonReading[],
  light: LightPosterior,
): (Uint8Array | null)[] {
  const claimed = ribbons.map((): Uint8Array | null => null);
  const runs = ribbons.flatMap((ribbon, i) => runsOf(ribbon, strangeRows(ribbon, readings[i]!), i));
  if (runs.length === 0) return claimed;
  const stretches = runs.map(({ of, from, to }) => cut(ribbons[of]!, from, to));
  nameInsulations(stretches, light).readings.forEach(({ insulation }, k) => {
    const { of, from, to } = runs[k]!;
    const { best } = readings[of]!.insulation;
    if (probabilityOf(insulation.candidates, best) > OWN) return;
    claimed[of] ??= new Uint8Array(ribbons[of]!.length).fill(1);
    claimed[of].fill(0, from, to);
  });
  return claimed;
}
