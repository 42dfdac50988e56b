/** Limits as fractions of nominal for one voltage rule; `service` at the point of delivery, `utilization` at the user. */
export interface BandRule {
  readonly source: string;
  readonly status: 'read' | 'from memory';
  readonly normal: { readonly service: readonly [number, number]; readonly utilization: readonly [number, number] };
  /** Infrequent excursions; equal to `normal` where the rule knows no second range. */
  readonly widest: { readonly service: readonly [number, number]; readonly utilization: readonly [number, number] };
}

/**
 * ANSI C84.1 on its 120 V base; every other row of its table is this times nominal/120, rounded to a volt
 * (test/verify/bands.test.ts). No free copy could be read: from memory, with two read cross-checks.
 */
const ANSI: BandRule = {
  source: 'ANSI C84.1 (2011 and later), from memory; range A service +/- 5 % read',
  status: 'from memory',
  normal: { service: [114 / 120, 126 / 120], utilization: [108 / 120, 126 / 120] },
  widest: { service: [110 / 120, 127 / 120], utilization: [104 / 120, 127 / 120] },
};

const IEC: BandRule = {
  source: 'IEC 60038 table 1, supply within +/- 10 % of nominal',
  status: 'read',
  normal: { service: [0.9, 1.1], utilization: [0.9, 1.1] },
  widest: { service: [0.9, 1.1], utilization: [0.9, 1.1] },
};

const UK: BandRule = {
  source: '230 V +10 % -6 %, secondary page quoting the wiring regulations',
  status: 'read',
  normal: { service: [0.94, 1.1], utilization: [0.94, 1.1] },
  widest: { service: [0.94, 1.1], utilization: [0.94, 1.1] },
};

const UK_OLD: BandRule = {
  source: '240 V +/- 6 %, secondary page quoting the wiring regulations',
  status: 'read',
  normal: { service: [0.94, 1.06], utilization: [0.94, 1.06] },
  widest: { service: [0.94, 1.06], utilization: [0.94, 1.06] },
};

/** The two texts seen disagree; the wider of both is taken so that a band alone never refutes a right map. */
const CSA: BandRule = {
  source: 'CAN3-C235-83, secondary page and memory, which disagree: the wider limit of both',
  status: 'from memory',
  normal: { service: [110 / 120, 126 / 120], utilization: [106 / 120, 126 / 120] },
  widest: { service: [106 / 120, 127 / 120], utilization: [104 / 120, 127 / 120] },
};

/** Isolated power and DC strings follow no supply standard; the allowance is ours. */
const OWN: BandRule = {
  source: 'common practice, no source: +/- 13 % as the widest supply range in this file',
  status: 'from memory',
  normal: { service: [0.9, 1.06], utilization: [0.87, 1.06] },
  widest: { service: [0.87, 1.1], utilization: [0.87, 1.1] },
};

export const BAND_RULES = { ansi: ANSI, iec: IEC, uk: UK, 'uk-old': UK_OLD, csa: CSA, own: OWN } as const;
export type BandRuleId = keyof typeof BAND_RULES;
