export { createClassicalSegmenter } from './classical/segmenter';
export { liveMats } from './cv/mats';
export {
  claiming,
  findConductors,
  fineRibbonNear,
  fineRibbonOf,
  makeTraceable,
  networkColorOf,
  retrace,
  ribbonNear,
  ribbonOf,
  type Traceable,
  traceStroke,
  traceTap,
} from './find';
export { noiseInLight, type RibbonQuality, readLinear } from './ribbon/sample';
export type { Segmentation, Segmenter } from './segmenter';
export type { TracedConductor } from './trace/conductor';
