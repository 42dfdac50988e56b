export { type ColorText, readColor } from './color-text';
export { type ColumnMap, layoutKey, suggestColumns } from './columns';
export { type CellFault, type LineReading, readLine } from './read-line';
export { faultsOf, type RowFault, readSchedule, type ScheduleReading, terminationsOf, withCell } from './read-schedule';
export { MOST_LINES, readTable, type SheetRow, type SheetTable } from './read-table';
export { newtonMeters } from './torque-text';
