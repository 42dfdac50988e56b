export type { Convention, Force, Look, Scheme, StripeRule } from './convention';
export { CONVENTIONS } from './data/conventions';
export { SYSTEMS } from './data/systems';
export { identify } from './identify';
export { breakerSpaces, mayShareNeutral, type PanelKind, panelKindOf, panelPole, poleRow } from './panel/pole';
export type { Jurisdiction, NominalVoltage, SourceStatus, System, SystemKind } from './system';
