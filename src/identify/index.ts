export type { Convention, Force, Look, Scheme, StripeRule } from './convention';
export { CONVENTIONS } from './data/conventions';
export { SYSTEMS } from './data/systems';
export type { Jurisdiction, NominalVoltage, SourceStatus, System, SystemKind } from './system';
