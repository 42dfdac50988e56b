export {
  createInspectClient,
  type InspectClient,
  type InspectOptions,
  type PhotoSource,
} from './client.browser';
export type { Picture } from './protocol';
export { type InspectRequest, NOTHING_KNOWN, type OnStage, type Probe, STAGES, type Stage } from './stages';
