export {
  createInspectClient,
  type InspectClient,
  type InspectOptions,
  type PhotoSource,
} from './client.browser';
export type { Glance } from './glance';
export type { PassingColor } from './passing-color';
export type { CameraFrame, Picture } from './protocol';
export {
  type HueCheck,
  type InspectRequest,
  NOTHING_KNOWN,
  type OnStage,
  type Probe,
  STAGES,
  type Stage,
} from './stages';
