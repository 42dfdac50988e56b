import {
  type Deviation,
  IEC_60757,
  type JobPhoto,
  type LogEntry,
  type Message,
  message,
  type SameConductor,
  type Signature,
  type TestPoint,
} from '../../flow';
import { type Compared, deviationText, type TurnoverView } from '../compare';
import type { Standings } from '../conductor-table';
import { drawPhoto } from './draw-photo';
import { type Cell, Paper } from './paper';

/** Everything a report is made of. Photos are asked for one by one. */
export interface ReportInput {
  readonly title: string;
  readonly by: string;
  readonly demo: boolean;
  /** ISO 8601. */
  readonly madeAt: string;
  readonly view: TurnoverView;
  readonly log: readonly LogEntry[];
  readonly photos: readonly string[];
  /** Conductors said to be seen on several of them. */
  readonly same: readonly SameConductor[];
  photo(id: string): Promise<JobPhoto>;
  /** An upright JPEG of the photo, some 900 pixels wide; null when its bytes are not here. */
  picture(id: string): Promise<Uint8Array | null>;
  readonly standings: Standings;
  readonly say: (message: Message) => string;
  readonly locale: string;
}

/**
 * The record as a PDF for reading and signing, written into `sink` page by page. It shows standings and never more: by
 * color, metered or disputed. Photos are asked for one after the other and let go of again.
 */
export async function makeReport(
  input: ReportInput,
  sink: WritableStream<Uint8Array<ArrayBuffer>>,
  onPhoto: (done: number, of: number) => void = () => {},
): Promise<void> {
  const paper = await Paper.open(sink, input.title, input.by, new Date(input.madeAt), input.locale);
  try {
    await writeAll(paper, input, onPhoto);
  } catch (error) {
    await paper.abort(error);
    throw error;
  }
}

async function writeAll(paper: Paper, input: ReportInput, onPhoto: (done: number, of: number) => void): Promise<void> {
  const { view, say } = input;
  const w = (code: string, values?: Message['values']): string => say(message(`record.report.${code}`, values));
  await cover(paper, input, w);
  if (view.compared.length > 0) {
    await paper.heading(w('deviations'));
    await deviations(paper, input, w);
    await paper.newPage();
    await paper.heading(w('terminations'));
    await terminations(paper, input, w);
  }
  for (const [k, id] of input.photos.entries()) {
    if (k === 0) await paper.newPage();
    await photoPart(paper, await input.photo(id), k + 1, input, w);
    onPhoto(k + 1, input.photos.length);
  }
  await signatures(paper, view.turnover.signatures, input, w);
  await paper.finish(w('foot'), (page, of) => w('page', { page, of }));
}

type Words = (code: string, values?: Message['values']) => string;

/** One after the other, so that a long table does not stand in memory. */
function* mapped<T, U>(items: Iterable<T>, make: (item: T) => U): Generator<U> {
  for (const item of items) yield make(item);
}

const cells = (...texts: readonly string[]): Cell[] => texts.map((text) => ({ text }));

async function cover(
  paper: Paper,
  { title, by, demo, madeAt, view, log, photos }: ReportInput,
  w: Words,
): Promise<void> {
  await paper.heading(title, 20);
  if (demo) await paper.text(w('demo'), { strong: true });
  await paper.text(w('by', { by: by || '-', at: madeAt }));
  paper.gap(8);
  await paper.text(w('caution'), { strong: true });
  await paper.text(w('color-only'));
  paper.gap(8);
  const { counts } = view;
  if (view.compared.length > 0) {
    const values = {
      match: counts.match,
      differs: counts.differs,
      unsure: counts['cannot tell'],
      missing: counts.missing,
    };
    await paper.text(w('counts', { terminations: view.compared.length, photos: photos.length, ...values }));
    await paper.text(w('open', { open: view.open, all: view.deviations.length }));
  } else await paper.text(w('photos', { photos: photos.length }));
  const last = log.at(-1);
  if (last) {
    paper.gap(8);
    await paper.text(w('log', { entries: log.length, at: last.at }));
    await paper.text(w('hash', { hash: last.hash }));
  }
}

async function deviations(paper: Paper, { view, say }: ReportInput, w: Words): Promise<void> {
  if (view.deviations.length === 0) {
    await paper.text(w('no-deviations'));
    return;
  }
  const byId = new Map(view.compared.map(({ termination: t }) => [t.id, t]));
  const where = (d: Deviation): string => {
    const t = d.termination === null ? undefined : byId.get(d.termination);
    return `${t?.space ?? t?.circuit ?? ''} ${t ? w(`part-${t.part}`) : ''}`.trim();
  };
  const rows = mapped(grouped(view), ([d, ...more]): Cell[] => {
    const handled = view.turnover.handled[d.id];
    const comments = handled?.comments.map((c) => `${c.text} (${c.by}, ${c.at})`) ?? [];
    const state = handled?.closed ? w('closed', { by: handled.closed.by, at: handled.closed.at }) : w('still-open');
    const places = [d, ...more].map(where).join(', ');
    const many = more.length > 0 ? [w('times', { count: more.length + 1 })] : [];
    return [
      { text: w(`severity-${d.severity}`), strong: d.severity === 'danger' || d.severity === 'violation' },
      { text: `${d.panel} ${places}`.trim() },
      { text: [deviationText(d, say), ...many, ...comments].join(' / ') },
      { text: handled?.assigned?.to ?? '' },
      { text: state },
    ];
  });
  await paper.table(
    [0.12, 0.18, 0.42, 0.12, 0.16],
    ['severity', 'place', 'what', 'assigned', 'state'].map((c) => w(`head-${c}`)),
    rows,
  );
}

/** Deviations that say the same of one panel and were not handled one by one stand together, in the order of the first. */
function grouped({ deviations, turnover }: TurnoverView): (readonly [Deviation, ...Deviation[]])[] {
  const groups = new Map<string, [Deviation, ...Deviation[]]>();
  for (const d of deviations) {
    const key = turnover.handled[d.id] ? d.id : JSON.stringify([d.panel, d.severity, d.message, d.row]);
    const group = groups.get(key);
    if (group) group.push(d);
    else groups.set(key, [d]);
  }
  return [...groups.values()];
}

async function terminations(paper: Paper, { view, say }: ReportInput, w: Words): Promise<void> {
  const head = ['place', 'circuit', 'expected', 'seen', 'result', 'standing', 'entered'].map((c) => w(`head-${c}`));
  await paper.table(
    [0.13, 0.16, 0.12, 0.15, 0.12, 0.1, 0.22],
    head,
    mapped(view.compared, (c) => terminationRow(c, view, say, w)),
  );
}

function terminationRow(c: Compared, view: TurnoverView, say: ReportInput['say'], w: Words): Cell[] {
  const { termination: t, sight, comparison, because, standing } = c;
  const entry = view.turnover.entries[t.id];
  const entered = [
    entry?.torque &&
      `${entry.torque.value} ${entry.torque.unit}, ${entry.torque.tool} (${entry.torque.by}, ${entry.torque.at})`,
    entry?.witness && w(entry.witness.seen ? 'witness-seen' : 'witness-none', { by: entry.witness.by }),
    entry?.strip && w('strip', { mm: entry.strip.mm }),
    entry?.tape && w('tape', { text: entry.tape.text }),
  ].filter((text) => text !== undefined);
  const expected = [
    t.color && say(message(`color.name.${t.color}`)),
    t.stripe && say(message(`color.name.${t.stripe}`)),
  ];
  const seen =
    sight.kind === 'seen' ? sight.conductor.insulation.set.map((name) => say(message(`color.name.${name}`))) : [];
  return [
    { text: `${t.panel} ${t.space ?? ''} ${w(`part-${t.part}`)}` },
    { text: `${t.circuit} ${t.load}`.trim() },
    { text: expected.filter((each) => each !== null).join(' / ') || '-' },
    { text: seen.join(' / ') || '-' },
    { text: `${w(`result-${comparison.replaceAll(' ', '-')}`)}. ${say(because)}`, strong: comparison === 'differs' },
    { text: standing === null ? '-' : w(`standing-${standing.replaceAll(' ', '-')}`) },
    { text: entered.join('; ') || '-' },
  ];
}

async function photoPart(paper: Paper, photo: JobPhoto, number: number, input: ReportInput, w: Words): Promise<void> {
  const { findings } = photo;
  const { say } = input;
  const places = input.view.turnover.places.filter((p) => p.photo === photo.id);
  await paper.need(380);
  await paper.heading(w('photo', { number, name: findings.photo.name }), 11);
  for (const p of places)
    await paper.text(
      w('taken-at', { panel: p.panel, space: p.space ?? '-', how: `record.report.how-${p.how.replaceAll(' ', '-')}` }),
      { size: 8 },
    );
  await paper.text(`SHA-256 ${findings.photo.sha256}`, { size: 7 });
  if (photo.note) await paper.text(w('note', { note: photo.note }), { size: 8 });
  for (const reason of findings.capture.reasons) await paper.text(say(reason), { size: 8 });
  if (findings.light.flash) await paper.text(say(message('photo.light.flash')), { size: 8 });
  const jpeg = await input.picture(photo.id);
  if (jpeg) await drawPhoto(paper, jpeg, findings);
  else await paper.text(w('no-picture'), { size: 8 });
  const verdicts = new Map(input.standings.get(photo.id)?.map((v) => [v.conductor, v.standing]));
  const label = new Map(findings.conductors.map((c, k) => [c.id, String(k + 1)]));
  const rows = findings.conductors.map((c, k): Cell[] => {
    const best = findings.map.assignments.find((a) => a.conductor === c.id)?.roles[0];
    const word = photo.words[c.id] ?? c.userWord;
    const color = c.insulation.set
      .map((name) => `${say(message(`color.name.${name}`))} ${IEC_60757[name]}`)
      .join(' / ');
    const marks = [
      ...(c.stripe ? [w('stripe', { name: `color.name.${c.stripe.name}` })] : []),
      ...c.tape.map((t) => w('tape', { text: `color.name.${t.name}` })),
    ];
    const role =
      best && best.role !== 'unassigned'
        ? w('role', {
            role: `identify.role.${best.role.replaceAll(' ', '-')}`,
            percent: Math.round(best.probability * 100),
          })
        : '-';
    const standing = verdicts.get(c.id) ?? 'by color';
    return cells(
      String(k + 1),
      c.covering === 'bare' ? w('bare') : color,
      [
        ...marks,
        ...(word
          ? [w('word', { name: word.name === 'not decided' ? '?' : `color.name.${word.name}`, by: word.by })]
          : []),
      ].join('; ') || '-',
      role,
      w(`standing-${standing.replaceAll(' ', '-')}`),
    );
  });
  if (rows.length === 0) await paper.text(w('none-found'), { size: 8 });
  else
    await paper.table(
      [0.06, 0.3, 0.24, 0.26, 0.14],
      ['number', 'color', 'marks', 'role', 'standing'].map((c) => w(`head-${c}`)),
      rows,
    );
  await readings(paper, photo, label, w);
  await sameness(paper, photo, label, input, w);
  for (const f of findings.map.findings)
    await paper.text(`${w(`severity-${f.severity}`)}: ${say(labeled(f.message, label))}`, { size: 8 });
}

/** Conductor ids in a message as the numbers in the picture. */
const labeled = (m: Message, label: ReadonlyMap<string, string>): Message =>
  m.values === undefined
    ? m
    : message(
        m.code,
        Object.fromEntries(
          Object.entries(m.values).map(([key, value]) => [
            key,
            typeof value === 'string'
              ? value
                  .split(', ')
                  .map((part) => label.get(part) ?? part)
                  .join(', ')
              : value,
          ]),
        ),
      );

async function readings(paper: Paper, photo: JobPhoto, label: ReadonlyMap<string, string>, w: Words): Promise<void> {
  if (photo.readings.length === 0) return;
  const replaced = new Set(photo.readings.map((r) => r.supersedes));
  const point = (p: TestPoint): string =>
    p.kind === 'conductor' ? (label.get(p.conductor) ?? '?') : p.kind === 'pole' ? p.role : p.kind;
  const rows = photo.readings.map((r) =>
    cells(
      `${point(r.from)} - ${point(r.to)}`,
      r.function,
      `${r.value}${replaced.has(r.id) ? ` (${w('replaced')})` : r.takenBack ? ` (${w('taken-back')})` : ''}`,
      r.by,
      r.at,
    ),
  );
  await paper.table(
    [0.24, 0.24, 0.18, 0.16, 0.18],
    ['between', 'function', 'value', 'by', 'at'].map((c) => w(`head-${c}`)),
    rows,
  );
}

/** What somebody said of its conductors beside others: a word, not a reading. */
async function sameness(
  paper: Paper,
  photo: JobPhoto,
  label: ReadonlyMap<string, string>,
  { same, photos, say }: ReportInput,
  w: Words,
): Promise<void> {
  const numberOf = (conductor: string): string => label.get(conductor) ?? '?';
  for (const { conductors, log10Ratio, by, at } of photo.comparisons ?? []) {
    const [first, second] = conductors.map(numberOf);
    await paper.text(
      w('compared', { first: first ?? '?', second: second ?? '?', ratio: log10Ratio.toFixed(1), by, at }),
      { size: 8 },
    );
  }
  for (const { sightings, together, by, at } of same) {
    const here = sightings.find((s) => s.photo === photo.id);
    if (!here) continue;
    const others = sightings.filter((s) => s !== here).map((s) => photos.indexOf(s.photo) + 1);
    const set = together.set.map((name) => say(message(`color.name.${name}`))).join(' / ');
    const values = { number: numberOf(here.conductor), photos: others.join(', '), set, by, at };
    await paper.text(w(together.contradicting ? 'same-contradicting' : 'same', values), { size: 8 });
  }
}

async function signatures(paper: Paper, signed: readonly Signature[], input: ReportInput, w: Words): Promise<void> {
  await paper.need(140);
  await paper.heading(w('signatures'));
  await paper.text(w('signing'), { size: 8 });
  for (const s of signed) {
    const height = 46;
    const { x, y } = await paper.place(height);
    for (const stroke of s.strokes ?? [])
      paper.line(
        stroke.map(([px, py]) => ({ x: x + px * 180, y: y + height - py * height })),
        1.2,
      );
    await paper.text(w(s.strokes ? 'signed-drawn' : 'signed-typed', { by: s.by, capacity: s.capacity, at: s.at }));
    await paper.text(w('covers', { hash: s.covers }), { size: 7 });
    const current = input.log.at(-1)?.jobHash;
    if (current !== undefined && !input.log.some((entry) => entry.jobHash === s.covers))
      await paper.text(w('covers-unknown'), { strong: true, size: 8 });
  }
  if (signed.length === 0) {
    for (let k = 0; k < 2; k++) {
      paper.gap(34);
      await paper.text('________________________________________    ____________________');
      await paper.text(w('sign-here'), { size: 8 });
    }
  }
}
