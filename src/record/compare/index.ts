export type { Compared } from './compare';
export type { Sight } from './sight';
export { type TurnoverView, viewTurnover } from './turnover-view';
