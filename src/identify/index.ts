export type { Convention, Force, Look, Scheme, StripeRule } from './convention';
export { CONVENTIONS } from './data/conventions';
export { SYSTEMS } from './data/systems';
export { roleMarginals } from './explain/read';
export { identify } from './identify';
export { roleLabel, systemName } from './labels';
export { legendFindings } from './legend/conflicts';
export { type LegendFault, type LegendReading, readLegend } from './legend/schema';
export { roleOfTag } from './model/tag';
export {
  type PanelBalance,
  type PanelConductor,
  type PanelFault,
  type PanelMap,
  type PanelSpace,
  panelBalance,
  panelMap,
} from './panel/map';
export {
  breakerSpaces,
  isPoleSpace,
  MOST_SPACES,
  mayShareNeutral,
  mostSpaces,
  type PanelKind,
  panelKindOf,
  panelPole,
  poleRow,
  poleSide,
} from './panel/pole';
export type { Jurisdiction, NominalVoltage, SourceStatus, System, SystemKind } from './system';
