import type { SiteKnowledge } from '../flow';
import type { BandOptions, BandPlace, BandRange } from './expected-voltage';
import { type Meter, UNKNOWN_METER } from './meter';
import type { PostedVolts } from './models';

/** Where the leads go; decides which measurement category the meter needs (IEC 61010-2-030). */
export type Place = 'outlet' | 'panel' | 'service';

/** What the user has said of the job, the instrument and the site. Everything may be left out. */
export interface MeterOptions {
  readonly meter?: Meter;
  readonly place?: Place;
  readonly site?: SiteKnowledge;
  /** Volts read from a nameplate, for systems whose id does not fix them. */
  readonly posted?: PostedVolts;
  /** Where along the supply the readings are taken; utilization is the wider band. */
  readonly bandPlace?: BandPlace;
  readonly bandRange?: BandRange;
  /** Three phases feed motors: the rotation must be read. */
  readonly motors?: boolean;
  /** The user saw water or damage on the gear. */
  readonly wetOrDamaged?: boolean;
  /** Ids of `SAFETY_STEPS` acknowledged for this job. */
  readonly acknowledged?: readonly string[];
  /** When the photo, the trace or the word for a conductor was last changed: ISO 8601 by conductor id. */
  readonly edited?: Readonly<Record<string, string>>;
}

export const bandOptions = (options: MeterOptions): BandOptions => ({
  place: options.bandPlace ?? 'utilization',
  range: options.bandRange ?? 'B',
  // Not the stated accuracy: see `weighingMeter`.
  meter: UNKNOWN_METER,
});
