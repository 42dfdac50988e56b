import type { Finding } from '../../flow';

/** A rule as it is printed beside a finding. */
export interface Rule {
  readonly rule: string;
  readonly ruleStatus: NonNullable<Finding['ruleStatus']>;
}

const nec = (section: string, edition = '2020'): Rule => ({
  rule: `NEC ${edition} ${section}; check the edition adopted locally`,
  ruleStatus: 'read',
});
const recalled = (rule: string): Rule => ({
  rule: `${rule}; check the edition adopted locally`,
  ruleStatus: 'from memory',
});

/** Sections read in the California Electrical Code 2022, which adopts the 2020 NEC; 517.160 in the 2017 NEC. */
export const RULES = {
  whiteAsHot: nec('200.7(C)(1)'),
  grounded: nec('200.6(A), (B)'),
  neutralsApart: nec('200.6(D)'),
  grounding: nec('250.119'),
  systemsApart: nec('210.5(C)(1), 215.12(C)(1)'),
  highLegOrange: nec('110.15, 230.56'),
  phaseOrder: nec('408.3(E)(1)'),
  isolatedStripe: nec('517.160(A)(5)', '2017'),
  multiwire: nec('210.4(B)'),
  dcPolarity: nec('210.5(C)(2), 215.12(C)(2)'),
  protective: { rule: 'IEC 60445:2010 6.3.2', ruleStatus: 'read' },
  noOrder: { rule: 'IEC 60445 6.2.3', ruleStatus: 'read' },
  oldAndNew: recalled('BS 7671 514.14.1'),
  canadianOrder: {
    rule: 'CEC Part I rule 4-036 (4-038 in later editions); check the edition in force',
    ruleStatus: 'read',
  },
  tagged: nec('210.5(C)(1), 215.12(C)(1)'),
  parallel: recalled('NEC 310.10(G)'),
  groundPath: recalled('NEC 250.118'),
  practice: { rule: 'common practice', ruleStatus: 'common practice, no source' },
} as const satisfies Record<string, Rule>;
