import { ManifestSchema, ShellSchema } from './archive/form';
import { ExportSchema, JobPhotoSchema, JobSchema, LogSchema } from './schema';

/** The forms of what leaves the device, by the name of the published schema. */
export const SCHEMAS = {
  job: JobSchema,
  log: LogSchema,
  export: ExportSchema,
  'archive-manifest': ManifestSchema,
  'archive-job': ShellSchema,
  'archive-photo': JobPhotoSchema,
} as const;
