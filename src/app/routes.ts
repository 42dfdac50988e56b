/** Where a screen lives behind the hash. Ids are made here or by the vision room; they are still encoded. */
export const JOURNEYS = ['map', 'hue', 'record'] as const;
export type Journey = (typeof JOURNEYS)[number];

export type TurnoverPart = 'schedule' | 'queue' | 'terminations' | 'deviations' | 'report';

const e = encodeURIComponent;
const photo = (job: string, id: string): string => `/job/${e(job)}/photo/${e(id)}`;

export const to = {
  start: '/',
  help: '/help',
  limits: '/limits',
  colors: '/colors',
  sheet: '/sheet',
  shoot: (journey: Journey, job?: string): string => (job ? `/job/${e(job)}/shoot/${journey}` : `/shoot/${journey}`),
  newTurnover: '/turnover',
  job: (job: string): string => `/job/${e(job)}`,
  record: (job: string): string => `/job/${e(job)}/record`,
  turnover: (job: string, part?: TurnoverPart): string => `/job/${e(job)}/turnover${part ? `/${part}` : ''}`,
  termination: (job: string, id: string): string => `/job/${e(job)}/turnover/at/${e(id)}`,
  shootAt: (job: string, id: string): string => `/job/${e(job)}/turnover/at/${e(id)}/shoot`,
  pair: (job: string, id: string): string => `/job/${e(job)}/turnover/pair/${e(id)}`,
  photo,
  conductor: (job: string, id: string, conductor: string): string => `${photo(job, id)}/conductor/${e(conductor)}`,
  map: (job: string, id: string): string => `${photo(job, id)}/map`,
  meter: (job: string, id: string): string => `${photo(job, id)}/meter`,
} as const;

export const isJourney = (value: string | undefined): value is Journey =>
  (JOURNEYS as readonly (string | undefined)[]).includes(value);
