export { estimateLight } from './estimate-light';
export { posteriorOf } from './posterior';
export { angleBetween } from './statistics';
export { twoLamps } from './two-lamps';
export type { LightMode, LightPosterior } from './types';
