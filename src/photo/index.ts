export { captureVerdict, ofDrawing, withConductorWidths, withSettledLight } from './capture/verdict';
export type { DecodedPhoto, DecodeOptions } from './decoded';
export { LIMITS, readFacts } from './facts';
export { sha256 } from './sha256';
export { sniffFormat } from './sniff';
export { WORKING_SIDE, type WorkingSize, workingSize } from './working-size';
