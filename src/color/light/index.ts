export { estimateLight } from './estimate-light';
export { posteriorOf } from './posterior';
export type { LightMode, LightPosterior } from './types';
