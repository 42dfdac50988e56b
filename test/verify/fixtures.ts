import type { Assignment, PhaseMap, Reading, Role, SystemId, TestPoint } from '../../src/flow';

/** A claim in short: conductor, system, role, probability of the top role (alternatives are added evenly). */
export interface Said {
  readonly id: string;
  readonly system: SystemId;
  readonly role: Role;
  readonly probability?: number;
  readonly others?: readonly { readonly system: SystemId; readonly role: Role; readonly probability: number }[];
}

export const mapOf = (said: readonly Said[]): PhaseMap => {
  const assignments = said.map(
    (s): Assignment => ({
      conductor: s.id,
      roles: [{ system: s.system, role: s.role, probability: s.probability ?? 0.85 }, ...(s.others ?? [])],
      because: [],
    }),
  );
  const systems = [...new Set(said.map((s) => s.system))].map((system) => ({ system, probability: 0.9 }));
  return { systems, assignments, eliminated: [], findings: [] };
};

export const WYE_208: readonly Said[] = [
  { id: 'a', system: 'us-208y120', role: 'phase A' },
  { id: 'b', system: 'us-208y120', role: 'phase B' },
  { id: 'c', system: 'us-208y120', role: 'phase C' },
  { id: 'n', system: 'us-208y120', role: 'grounded conductor' },
  { id: 'g', system: 'us-208y120', role: 'equipment grounding conductor' },
];

export const on = (conductor: string): TestPoint => ({ kind: 'conductor', conductor });
export const ground: TestPoint = { kind: 'ground' };
export const bar: TestPoint = { kind: 'neutral bar' };
export const pole = (system: SystemId, role: Role): TestPoint => ({ kind: 'pole', system, role });

let count = 0;
export const read = (
  from: TestPoint,
  to: TestPoint,
  value: Reading['value'],
  rest: Partial<Omit<Reading, 'from' | 'to' | 'value'>> = {},
): Reading => {
  count += 1;
  return {
    id: `r${count}`,
    from,
    to,
    function: 'AC volts',
    value,
    at: '2026-01-05T10:00:00Z',
    by: 'invented tester',
    ...rest,
  };
};
