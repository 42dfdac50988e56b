export { type ArrivalNote, type Arrivals, type KeptArrival, openArrivals } from './arrivals';
export { type ChainFault, chainFault, nextEntry } from './chain';
export { changesBetween } from './changes';
export { conductorHeading, conductorRows, conductorTable, type Standings } from './conductor-table';
export { exportJob, type PhotoBytes } from './export';
export { hashValue } from './hash';
export { type ImportedJob, importJob } from './import';
export { CURRENT_SCHEMA, migrate } from './migrate';
export * from './schedule';
export type { ExportFile } from './schema';
export { type CopyPlace, copyPlace, keepCopyPlace, mayWrite, type PickedFolder, writeCopy } from './second-copy';
export { askToPersist, type StorageSpace, storageSpace } from './space';
export { type JobStore, type JobSummary, openJobStore, type StoreOptions } from './store';
/** The archive and its zip library, fetched on first use: the first screen does not wait for them. */
export const loadArchive = () => import('./archive');
export * from './compare';
export { deviationTable } from './deviation-table';
export type { JobShell } from './job-hash';
export { readTag, type TagPlace, tagText } from './tag/tag-text';
/** The PDF report and its library, fetched on first use. */
export const loadReport = () => import('./report/make-report');
export type { ReportInput } from './report/make-report';
export const loadLabels = () => import('./tag/label-sheet');
export { SCHEMAS } from './schemas';
