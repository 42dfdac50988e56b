import type { Check, Job } from '../../flow';
import { unacknowledged } from '../../verify';

/** Readings may be typed once someone by name has said what meter and place it is and acknowledged every first step. */
export const mayMeasure = (job: Job): boolean =>
  job.by !== '' &&
  Boolean(job.meter?.category) &&
  Boolean(job.place?.kind) &&
  typeof job.place?.wetOrDamaged === 'boolean' &&
  unacknowledged('before any reading', job.acknowledgements).length === 0;

/** A reading on a lifted conductor has steps of its own. */
export const mayLift = (job: Job): boolean =>
  unacknowledged('before anything is lifted', job.acknowledgements).length === 0;

export const needsLifting = (check: Pick<Check, 'condition'> | null): boolean =>
  check?.condition?.startsWith('supply off') === true;
