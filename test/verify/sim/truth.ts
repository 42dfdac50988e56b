import type { Verdict } from '../../../src/flow';
import type { Site } from './site';
import { type At, distance, supply } from './supply';

const EARTH = ['grounded conductor', 'equipment grounding conductor'];

/**
 * Conductors that came out metered although the claim is wrong: another kind of conductor, another pole, a
 * conductor with a fault, or a voltage to ground or to the other poles that the claimed system does not have.
 */
export function falselyMetered(site: Site, verdict: Verdict): string[] {
  return verdict.conductors.flatMap(({ conductor, standing }) => {
    if (standing !== 'metered') return [];
    const wire = site.wires.find((w) => w.id === conductor);
    const claim = verdict.map.assignments.find((a) => a.conductor === conductor)?.roles[0];
    if (!wire || !claim) return [conductor];
    if (wire.faulty || wire.at === 'open') return [conductor];
    const earthClaim = EARTH.includes(claim.role);
    if (earthClaim || EARTH.includes(wire.role)) return claim.role === wire.role ? [] : [conductor];
    const target = supply(claim.system);
    const pole = target.lines[claim.role];
    if (!pole) return [conductor];
    const names = Object.keys(target.lines);
    const place = names.indexOf(claim.role);
    const real = Object.entries(site.poles)[place];
    if (!real || distance(real[1] as At, wire.at as At) > 0.05 * Math.hypot(...(wire.at as At))) return [conductor];
    // Same voltages as claimed, at one supply level: to ground and to the next pole.
    const near = (seen: number, nominal: number): boolean => Math.abs(seen / (nominal * site.level) - 1) < 0.08;
    const toZero = Math.hypot(...(wire.at as At));
    if (!near(toZero, Math.hypot(...pole))) return [conductor];
    const poles = Object.values(site.poles) as At[];
    const wrongAcross = names.some((name, i) => {
      const there = poles[i];
      const nominal = distance(target.lines[name as keyof typeof target.lines] as At, pole);
      return i !== place && there !== undefined && !near(distance(there, wire.at as At), nominal);
    });
    return wrongAcross ? [conductor] : [];
  });
}
