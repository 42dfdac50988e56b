export { SYSTEMS } from './data/systems';
export type { Jurisdiction, NominalVoltage, SourceStatus, System, SystemKind } from './system';
