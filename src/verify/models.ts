import type { PhaseMap, SystemId } from '../flow';
import { type Jurisdiction, SYSTEMS, type System } from '../identify';
import type { BandRuleId } from './band-rule';
import {
  cornerGrounded,
  direct,
  highLeg,
  isolated,
  singlePhase,
  splitPhase,
  switched,
  ungroundedDelta,
  wye,
} from './build-model';
import type { SystemModel } from './system-model';

const BAND: Readonly<Record<Jurisdiction, BandRuleId>> = {
  US: 'ansi',
  CA: 'csa',
  IEC: 'iec',
  UK: 'uk',
  AU: 'uk',
  CN: 'iec',
  IN: 'iec',
  JP: 'own',
};

/** Host voltage of switch legs until the map says which system feeds them: a US or Canadian lighting branch. */
const HOST_LINE_TO_NEUTRAL = 120;

/** Volts posted on site for systems whose id does not fix them (DC, isolated power): pole to pole or line to line. */
export type PostedVolts = Readonly<Record<SystemId, number>>;

/**
 * A wye has one exact figure and one rounded name: 120 V makes 207.85, but 480 V makes 277.13. The rounder of the
 * two is the exact one in every row of IEC 60038 (120, 230 from the star point; 480, 600 from the side).
 */
const starVolts = (lineToNeutral: number, lineToLine: number): number =>
  lineToNeutral % 10 === 0 ? lineToNeutral : lineToLine / Math.sqrt(3);

/** What a map adds to a system's own data. */
interface Context {
  /** Lines of an isolated system. */
  readonly lines: 2 | 3;
  readonly host: { readonly lineToNeutral: number; readonly band: BandRuleId } | null;
}

function build(system: System, posted: PostedVolts, { lines, host }: Context): SystemModel | null {
  const { id, kind, nominal, roles } = system;
  const band = id.includes('pre-2004') ? 'uk-old' : BAND[system.jurisdiction];
  const side = posted[id] ?? nominal.lineToLine;
  const star = nominal.lineToNeutral;
  if (kind === 'wye' && star && side) return wye(id, starVolts(star, side), band);
  if (kind === 'split phase' && star) return splitPhase(id, star, band);
  if (kind === 'single line' && star) return singlePhase(id, star, band);
  if (kind === 'high-leg delta' && side) return highLeg(id, side, roles.includes('phase A') ? 'B' : 'A', band);
  if (kind === 'delta' && side) return ungroundedDelta(id, side, band);
  if (kind === 'corner-grounded delta' && side) return cornerGrounded(id, side, band);
  if (kind === 'isolated' && side) return isolated(id, side, lines);
  if (kind === 'dc' && side) return direct(id, side, roles.includes('grounded conductor'));
  if (kind === 'auxiliary' && roles.includes('switch leg'))
    return switched(id, host?.lineToNeutral ?? HOST_LINE_TO_NEUTRAL, host?.band ?? band);
  return null;
}

/** Voltages by system id; null where nothing can be expected. */
export type Models = (id: SystemId) => SystemModel | null;

const remembered = (make: (id: SystemId) => SystemModel | null): Models => {
  const kept = new Map<SystemId, SystemModel | null>();
  return (id) => {
    const known = kept.get(id);
    if (known !== undefined) return known;
    const made = make(id);
    kept.set(id, made);
    return made;
  };
};

/**
 * The voltages of a system taken alone, or null where nothing can be expected: an unknown id, a control circuit,
 * DC of which no volts were posted.
 */
export const modelOf: Models = remembered((id) => {
  const system = SYSTEMS[id];
  return system ? build(system, {}, { lines: 2, host: null }) : null;
});

/**
 * The voltages of the systems of a map: with the volts posted on site, a third isolated line where one is claimed,
 * and switch legs fed by the most probable grounded AC system of the map.
 */
export function modelsFor(map: PhaseMap, posted: PostedVolts = {}): Models {
  const third = map.assignments.some((a) => a.roles[0]?.role === 'isolated conductor 3');
  const hostModel = [...map.systems]
    .sort((a, b) => b.probability - a.probability)
    .map((s) => modelOf(s.system))
    .find((m) => m?.ground === 'bonded' && m.current === 'AC' && SYSTEMS[m.id]?.kind !== 'auxiliary');
  const line = hostModel?.points[0]?.at;
  const host = hostModel && line ? { lineToNeutral: Math.hypot(line.re, line.im), band: hostModel.band } : null;
  return remembered((id) => {
    const system = SYSTEMS[id];
    return system ? build(system, posted, { lines: third ? 3 : 2, host }) : null;
  });
}
