export { ACTIONS, type Action, type Advice, advise } from './hue/advise';
export { type HuePicture, huePicture, type PlaneEllipse, type PlanePoint } from './hue/explain';
export { judgeComparison } from './hue/judge';
export { angleBetween, estimateLight, type LightMode, type LightPosterior, posteriorOf, twoLamps } from './light';
export { claimedRows } from './naming/claim';
export { combineColors } from './naming/combine';
export { type Comparison, compareInsulations } from './naming/compare';
export { doubtDrawn, looksDrawn } from './naming/drawn';
export {
  type NamingOptions,
  type NamingResult,
  nameInsulations,
  type ReferenceSample,
  type RibbonReading,
} from './naming/name-insulations';
export { doubtPresence } from './naming/presence';
export { alikeToTouch, doubtBorder, doubtElsewhere, doubtStrays } from './naming/stretches';
export { nthSmallest } from './nth-smallest';
export type { Body } from './ribbon/body';
export {
  areaMm2,
  diameterBy,
  isWireSize,
  KNOWN_LENGTHS,
  METRIC_SIZES,
  type SizeCandidate,
  sizeRange,
  sizesBeside,
  sizesByLength,
  WIRE_SIZES,
  type WireSize,
} from './ribbon/gauge';
export { deltaE2000, type Lab, LINEAR_OF_LEVEL, labOf, luminance, type Rgb, srgbOf } from './spaces';
