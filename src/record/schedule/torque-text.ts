import type { Torque } from '../../flow';

const POUND = '(?:lbs?|lbf|pounds?)';
const between = (a: string, b: string): RegExp => new RegExp(`^(?:${a}[·.*\\s-]*${b}|${b}[·.*\\s-]*${a})\\.?$`, 'i');
const UNITS: readonly (readonly [RegExp, Torque['unit']])[] = [
  [/^(?:n[·.*\s-]?m|newton[\s-]?met(?:er|re)s?)$/i, 'N·m'],
  [between(POUND, '(?:in|inch|inches)'), 'lbf·in'],
  [between(POUND, '(?:ft|foot|feet)'), 'lbf·ft'],
];

/** "35 in-lb", "4 N·m", "25 lbf·ft"; null without a unit: a bare number cannot be compared. */
export function readTorque(text: string): Torque | null {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*([^\d\s].*?)\s*$/.exec(text);
  const unit = UNITS.find(([form]) => form.test(match?.[2] ?? ''))?.[1];
  const value = Number(match?.[1]?.replace(',', '.'));
  return unit && value > 0 ? { value, unit } : null;
}

/** Newton meters per unit: NIST SP 811 (2008), appendix B.8 (from memory). */
const NEWTON_METERS: Readonly<Record<Torque['unit'], number>> = {
  N·m: 1,
  lbf·in: 0.112_984_8,
  lbf·ft: 1.355_818,
};

export const newtonMeters = ({ value, unit }: Torque): number => value * NEWTON_METERS[unit];
