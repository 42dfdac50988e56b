import {
  type ColorComparison,
  type Job,
  type JobPhoto,
  type Message,
  message,
  type Reading,
  type SameConductor,
  type TestPoint,
} from '../flow';
import { same } from './same';
import { turnoverChanges } from './turnover-changes';

const pointText = (point: TestPoint): string => (point.kind === 'conductor' ? point.conductor : point.kind);

/** Values are spelled out, so that a reading taken back later is still in the log. */
const readingValues = (r: Reading): NonNullable<Message['values']> => ({
  from: pointText(r.from),
  to: pointText(r.to),
  function: r.function,
  value: r.value,
  by: r.by,
  at: r.at,
});

const meterValues = ({ meter }: Job): NonNullable<Message['values']> => ({
  category: meter?.category ?? '-',
  volts: meter?.ratedVolts ?? 0,
  ...(meter?.accuracy ? { percent: meter.accuracy.percent, error: meter.accuracy.volts } : {}),
});

const GEAR = ['screen.place.sound', 'screen.place.wet'] as const;

/** What somebody said of the place is spelled out too: a job that stopped for wet gear has to show it. */
const placeValues = ({ place }: Job): NonNullable<Message['values']> => ({
  kind: place?.kind ? `screen.place.${place.kind}` : '-',
  gear: typeof place?.wetOrDamaged === 'boolean' ? (GEAR[Number(place.wetOrDamaged)] ?? '-') : '-',
  way: place?.way === 'supply off' ? 'screen.way.off' : 'screen.way.on',
});

const comparisonValues = ({ conductors, log10Ratio, by, at }: ColorComparison): NonNullable<Message['values']> => ({
  first: conductors[0],
  second: conductors[1],
  ratio: Number(log10Ratio.toFixed(2)),
  by,
  at,
});

/** With the names that the photos leave open together, so that a statement taken back later is still in the log. */
const sameValues = (job: Job, { sightings, together, by, at }: SameConductor): NonNullable<Message['values']> => {
  const nameOf = (photo: string): string => job.photos.find((p) => p.id === photo)?.findings.photo.name ?? photo;
  return {
    seen: sightings.map((s) => `${s.conductor} (${nameOf(s.photo)})`).join(', '),
    set: together.set.join(' / '),
    by,
    at,
  };
};

function* listChanges<T>(
  before: readonly T[],
  after: readonly T[],
  key: (item: T) => string,
): Generator<{ kind: 'added' | 'removed' | 'changed'; item: T }> {
  const old = new Map(before.map((item) => [key(item), item]));
  for (const item of after) {
    const was = old.get(key(item));
    old.delete(key(item));
    if (was === undefined) yield { kind: 'added', item };
    else if (!same(was, item)) yield { kind: 'changed', item };
  }
  for (const item of old.values()) yield { kind: 'removed', item };
}

function photoChanges(before: JobPhoto, after: JobPhoto): Message[] {
  const photo = after.findings.photo.name;
  const out: Message[] = [];
  for (const { kind, item } of listChanges(before.readings, after.readings, (r) => r.id))
    out.push(message(`record.change.reading-${kind}`, { photo, ...readingValues(item) }));
  const wordsOf = (p: JobPhoto) => Object.entries(p.words);
  for (const { kind, item } of listChanges(wordsOf(before), wordsOf(after), ([conductor]) => conductor))
    out.push(message(`record.change.word-${kind}`, { photo, conductor: item[0], name: item[1].name, by: item[1].by }));
  const pairsOf = (p: JobPhoto) => p.comparisons ?? [];
  for (const { kind, item } of listChanges(pairsOf(before), pairsOf(after), (c) => JSON.stringify(c.conductors)))
    out.push(message(`record.change.compared-${kind}`, { photo, ...comparisonValues(item) }));
  const lengthsOf = (p: JobPhoto) => (p.scale ? [p.scale] : []);
  for (const { kind, item } of listChanges(lengthsOf(before), lengthsOf(after), () => 'scale'))
    out.push(message(`record.change.length-${kind}`, { photo, mm: item.mm, by: item.by, at: item.at }));
  if (!same(before.findings, after.findings)) out.push(message('record.change.findings', { photo }));
  if (before.note !== after.note) out.push(message('record.change.note', { photo }));
  return out;
}

/**
 * What a save changed, for the log: photos, findings, user words, readings (with their values), notes,
 * acknowledgements, site and title. One message when the job is new. Empty when nothing changed.
 */
export function changesBetween(before: Job | undefined, after: Job): Message[] {
  if (!before) return [message('record.change.created', { title: after.title })];
  const out: Message[] = [];
  if (before.title !== after.title) out.push(message('record.change.title', { title: after.title }));
  if (before.by !== after.by) out.push(message('record.change.by', { by: after.by }));
  if (!same(before.site, after.site)) out.push(message('record.change.site'));
  if (!same(before.meter, after.meter)) {
    const code = after.meter?.accuracy ? 'record.change.meter-accuracy' : 'record.change.meter';
    out.push(message(code, meterValues(after)));
  }
  if (!same(before.place, after.place)) out.push(message('record.change.place', placeValues(after)));
  for (const { kind, item } of listChanges(before.acknowledgements, after.acknowledgements, (a) => a.step))
    out.push(message(`record.change.acknowledged-${kind}`, { step: item.step, by: item.by, at: item.at }));
  for (const { kind, item } of listChanges(before.same ?? [], after.same ?? [], (s) => s.id))
    out.push(message(`record.change.same-${kind}`, sameValues(kind === 'removed' ? before : after, item)));
  out.push(...turnoverChanges(before, after));
  const old = new Map(before.photos.map((p) => [p.id, p]));
  for (const { kind, item } of listChanges(before.photos, after.photos, (p) => p.id)) {
    const { name, sha256 } = item.findings.photo;
    const was = old.get(item.id);
    if (kind === 'changed' && was) out.push(...photoChanges(was, item));
    else out.push(message(`record.change.photo-${kind}`, { photo: name, sha256 }));
    const lost = kind === 'removed' ? item.readings : [];
    for (const r of lost) out.push(message('record.change.reading-removed', { photo: name, ...readingValues(r) }));
    const fresh = kind === 'added' ? item.readings : [];
    for (const r of fresh) out.push(message('record.change.reading-added', { photo: name, ...readingValues(r) }));
  }
  return out.length > 0 || same(before, after) ? out : [message('record.change.other')];
}
