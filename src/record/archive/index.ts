export { type ArchiveSource, type Manifest, sourceOf } from './layout';
export { type Merged, mergeArchives } from './merge-archives';
export { openZip } from './open-zip';
export { type ReadArchive, readArchive } from './read-archive';
export { type ArchiveCheck, verifyArchive } from './verify-archive';
export { writeArchive } from './write-archive';
