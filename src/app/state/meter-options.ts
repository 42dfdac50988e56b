import type { Job, JobMeter, JobPhoto, JobPlace } from '../../flow';
import { type Meter, type MeterOptions, UNKNOWN_METER } from '../../verify';
import { siteOfPhoto } from './site';

/** What the verify room wants to know of the job. What was changed by hand takes back what was measured before. */
export function meterOptions(job: Job, photo: JobPhoto): MeterOptions {
  return {
    site: siteOfPhoto(job.site, photo),
    acknowledged: job.acknowledgements.map((a) => a.step),
    edited: { ...Object.fromEntries(Object.entries(photo.words).map(([id, word]) => [id, word.at])), ...photo.edits },
    ...(job.place ? placeOptions(job.place) : {}),
    ...(job.meter ? { meter: meterOf(job.meter) } : {}),
  };
}

const placeOptions = ({ kind, wetOrDamaged, motors, postedVolts }: JobPlace): MeterOptions => ({
  ...(kind ? { place: kind } : {}),
  wetOrDamaged: wetOrDamaged === true,
  motors,
  posted: postedVolts,
});

const meterOf = ({ category, ratedVolts, lowImpedance, accuracy }: JobMeter): Meter => ({
  ...UNKNOWN_METER,
  category,
  ratedVolts,
  lowImpedance,
  ...(accuracy ? { accuracyPercent: accuracy.percent, accuracyVolts: accuracy.volts } : {}),
});
