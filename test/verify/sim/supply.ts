import type { Role, SystemId } from '../../../src/flow';

/**
 * The electrician's world, written apart from src/verify on purpose: its voltages are plain geometry, so that an
 * error in the room's own phasors can't hide behind itself.
 */
export type At = readonly [x: number, y: number];

export interface Supply {
  readonly id: SystemId;
  /** Lines by role, volts relative to the bonded point (or the middle where nothing is bonded). */
  readonly lines: Readonly<Partial<Record<Role, At>>>;
  readonly neutral: boolean;
  readonly floating: boolean;
}

const R3 = Math.sqrt(3);
const wye = (v: number): Supply['lines'] => ({
  'phase A': [v, 0],
  'phase B': [-v / 2, (-v * R3) / 2],
  'phase C': [-v / 2, (v * R3) / 2],
});
const pair = (v: number): Supply['lines'] => ({ 'line 1': [v, 0], 'line 2': [-v, 0] });

export const SUPPLIES: readonly Supply[] = [
  { id: 'us-120-240-1ph', lines: pair(120), neutral: true, floating: false },
  { id: 'us-208y120', lines: wye(120), neutral: true, floating: false },
  { id: 'us-480y277', lines: wye(480 / R3), neutral: true, floating: false },
  {
    id: 'us-240-120-high-leg',
    lines: { 'phase A': [120, 0], 'high leg': [0, -120 * R3], 'phase C': [-120, 0] },
    neutral: true,
    floating: false,
  },
  {
    id: 'us-240-corner',
    lines: { 'phase A': [240 * (R3 / 2), 120], 'phase C': [0, 240] },
    neutral: true,
    floating: false,
  },
  { id: 'us-480-delta', lines: wye(480 / R3), neutral: false, floating: true },
  {
    id: 'us-isolated-power',
    lines: { 'isolated conductor 1': [60, 0], 'isolated conductor 2': [-60, 0] },
    neutral: false,
    floating: true,
  },
];

export const supply = (id: SystemId): Supply => {
  const found = SUPPLIES.find((s) => s.id === id);
  if (!found) throw new Error(`no supply ${id}`);
  return found;
};

export const distance = (a: At, b: At): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const scaled = (a: At, k: number): At => [a[0] * k, a[1] * k];
export const mix = (a: At, b: At, t: number): At => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
