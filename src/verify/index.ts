export { BAND_RULES, type BandRule, type BandRuleId } from './band-rule';
export {
  type DeEnergizedPlan,
  isNumbered,
  numberingStep,
  planDeEnergized,
  type RingState,
  type RungConductor,
} from './de-energized';
export { EFFORT, effort } from './effort';
export { BONDED_OHMS, OPEN_OHMS } from './end';
export { type BandOptions, type BandPlace, type BandRange, expectedVoltage, WIDEST } from './expected-voltage';
export { judge } from './judge';
export { type Meter, meterError, UNKNOWN_METER } from './meter';
export { modelOf, type PostedVolts } from './models';
export { beyondNormal } from './normal-range';
export type { MeterOptions, Place } from './options';
export { type DiagramEdge, type DiagramPoint, type PhasorDiagram, phasorDiagram } from './phasor-diagram';
export { planChecks, planFirst } from './plan';
export { question } from './question';
export { type EdgeReading, readOnDiagram } from './read-edges';
export { SAFETY_STEPS, type SafetyStep, type StepMoment, unacknowledged } from './safety';
export { notices, postable, stops } from './stops';
export type { ModelPoint, SystemModel } from './system-model';
export { checkId, pointKey } from './test-point';
