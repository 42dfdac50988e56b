import type { Role, SystemId } from '../flow';
import type { BandRuleId } from './band-rule';
import { type Phasor, polar, volts, ZERO } from './phasor';
import type { ModelPoint, SystemModel } from './system-model';

const GROUNDED: ModelPoint = { role: 'grounded conductor', at: ZERO };
const BONDED: ModelPoint = { role: 'equipment grounding conductor', at: ZERO };

const widest = (points: readonly ModelPoint[]): number => {
  let most = 0;
  for (const a of points) {
    most = Math.max(most, Math.hypot(a.at.re, a.at.im));
    for (const b of points) most = Math.max(most, volts(a.at, b.at));
  }
  return most;
};

const model = (
  id: SystemId,
  points: readonly ModelPoint[],
  alike: readonly (readonly Role[])[],
  band: BandRuleId,
  rest: Partial<Pick<SystemModel, 'current' | 'ground' | 'rotates'>> = {},
): SystemModel => ({
  id,
  current: rest.current ?? 'AC',
  ground: rest.ground ?? 'bonded',
  points,
  band,
  rotates: rest.rotates ?? false,
  alike,
  maxVolts: widest(points),
});

/** The three corners of a wye, A leading B by 120 degrees, `lineToNeutral` volts from the star point. */
const corners = (lineToNeutral: number): readonly [Phasor, Phasor, Phasor] => [
  polar(lineToNeutral, 0),
  polar(lineToNeutral, -120),
  polar(lineToNeutral, 120),
];

const abc = (at: readonly [Phasor, Phasor, Phasor]): ModelPoint[] => [
  { role: 'phase A', at: at[0] },
  { role: 'phase B', at: at[1] },
  { role: 'phase C', at: at[2] },
];

/** Four-wire wye with a bonded star point. `lineToNeutral` in volts. */
export const wye = (id: SystemId, lineToNeutral: number, band: BandRuleId): SystemModel =>
  model(id, [...abc(corners(lineToNeutral)), GROUNDED, BONDED], [['phase A', 'phase B', 'phase C']], band, {
    rotates: true,
  });

/** One winding with its middle bonded: two lines half a turn apart. */
export const splitPhase = (id: SystemId, lineToNeutral: number, band: BandRuleId): SystemModel =>
  model(
    id,
    [
      { role: 'line 1', at: polar(lineToNeutral, 0) },
      { role: 'line 2', at: polar(lineToNeutral, 180) },
      GROUNDED,
      BONDED,
    ],
    [['line 1', 'line 2']],
    band,
  );

/** One line and its neutral. `lineToNeutral` in volts. */
export const singlePhase = (id: SystemId, lineToNeutral: number, band: BandRuleId): SystemModel =>
  model(id, [{ role: 'line 1', at: polar(lineToNeutral, 0) }, GROUNDED, BONDED], [], band);

/**
 * Delta with the middle of one winding bonded. The third corner stands sqrt(3)/2 of the side above that middle:
 * the high leg. `high` names the phase it sits on (B in the US, A in Canada); the order A-B-C is kept.
 */
export const highLeg = (id: SystemId, side: number, high: 'A' | 'B', band: BandRuleId): SystemModel => {
  const right = polar(side / 2, 0);
  const left = polar(side / 2, 180);
  const top = polar((side * Math.sqrt(3)) / 2, -90);
  // Clockwise through right, top, left is A, B, C; turning the names by one keeps the order.
  const named: ModelPoint[] =
    high === 'B'
      ? [
          { role: 'phase A', at: right },
          { role: 'high leg', at: top },
          { role: 'phase C', at: left },
        ]
      : [
          { role: 'phase C', at: right },
          { role: 'high leg', at: top },
          { role: 'phase B', at: left },
        ];
  const alike: Role[] = high === 'B' ? ['phase A', 'phase C'] : ['phase B', 'phase C'];
  return model(id, [...named, GROUNDED, BONDED], [alike], band, { rotates: true });
};

/** Three-wire delta without any bond; voltages to ground float. `side` in volts. */
export const ungroundedDelta = (id: SystemId, side: number, band: BandRuleId): SystemModel =>
  model(id, [...abc(corners(side / Math.sqrt(3))), BONDED], [['phase A', 'phase B', 'phase C']], band, {
    ground: 'floating',
    rotates: true,
  });

/** Three-wire delta with corner B bonded: phase B is the grounded conductor. */
export const cornerGrounded = (id: SystemId, side: number, band: BandRuleId): SystemModel =>
  model(
    id,
    [{ role: 'phase A', at: polar(side, 30) }, GROUNDED, { role: 'phase C', at: polar(side, 90) }, BONDED],
    [['phase A', 'phase C']],
    band,
    { rotates: true },
  );

/**
 * Lines of an isolation transformer, nothing bonded. Two lines stand half a turn apart about the place where
 * equal leakage puts ground; a third, where there is one, makes the triangle equilateral. `lineToLine` in volts.
 */
export const isolated = (id: SystemId, lineToLine: number, lines: 2 | 3): SystemModel => {
  const roles: readonly Role[] = ['isolated conductor 1', 'isolated conductor 2', 'isolated conductor 3'].slice(
    0,
    lines,
  ) as Role[];
  const at = lines === 2 ? [polar(lineToLine / 2, 0), polar(lineToLine / 2, 180)] : corners(lineToLine / Math.sqrt(3));
  return model(id, [...roles.map((role, i): ModelPoint => ({ role, at: at[i] ?? ZERO })), BONDED], [roles], 'own', {
    ground: 'floating',
    rotates: lines === 3,
  });
};

/** DC; with a middle conductor it is bonded there, else nothing is. The sign of a reading tells the poles apart. */
export const direct = (id: SystemId, poleToPole: number, middle: boolean): SystemModel =>
  model(
    id,
    [
      { role: 'positive', at: { re: poleToPole / 2, im: 0 } },
      { role: 'negative', at: { re: -poleToPole / 2, im: 0 } },
      ...(middle ? [GROUNDED] : []),
      BONDED,
    ],
    [],
    'own',
    { current: 'DC', ground: middle ? 'bonded' : 'floating' },
  );

/** A line that follows another system's line to neutral when its switch is on. `lineToNeutral` of the host, volts. */
export const switched = (id: SystemId, lineToNeutral: number, band: BandRuleId): SystemModel =>
  model(
    id,
    [
      { role: 'switch leg', at: polar(lineToNeutral, 0) },
      { role: 'traveler', at: polar(lineToNeutral, 0) },
      GROUNDED,
      BONDED,
    ],
    [],
    band,
  );
