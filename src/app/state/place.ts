import type { JobPlace } from '../../flow';

/** What is known of a place of which nothing has been said. */
export const UNKNOWN_PLACE: JobPlace = {
  kind: null,
  wetOrDamaged: null,
  motors: false,
  postedVolts: {},
  way: 'supply on',
};
