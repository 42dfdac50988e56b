export { closingFault, shownBy } from './closing';
export type { Compared } from './compare';
export { deviationText } from './deviation-text';
export { nextWithoutPhoto } from './next';
export { type Pairs, pairInOrder, sideBySide, sightingOf, terminationsAt } from './pair';
export type { Sight } from './sight';
export { type TurnoverView, viewTurnover } from './turnover-view';
