import { rgb } from '@cantoo/pdf-lib';
import {
  type Deviation,
  IEC_60757,
  type JobPhoto,
  type LogEntry,
  type Message,
  message,
  type Signature,
  type TestPoint,
} from '../../flow';
import type { Compared, TurnoverView } from '../compare';
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
  photo(id: string): Promise<JobPhoto>;
  /** An upright JPEG of the photo, some 900 pixels wide; null when its bytes are not here. */
  picture(id: string): Promise<Uint8Array | null>;
  readonly standings: Standings;
  readonly say: (message: Message) => string;
  readonly locale: string;
}

/**
 * The record as a PDF for reading and signing. It shows standings and never more: by color, metered or disputed.
 * @returns bytes of the PDF.
 */
export async function makeReport(
  input: ReportInput,
  onPhoto: (done: number, of: number) => void = () => {},
): Promise<Uint8Array> {
  const { view, say } = input;
  const w = (code: string, values?: Message['values']): string => say(message(`record.report.${code}`, values));
  const paper = await Paper.open(input.title, input.by, new Date(input.madeAt), input.locale);
  cover(paper, input, w);
  if (view.compared.length > 0) {
    paper.heading(w('deviations'));
    deviations(paper, input, w);
    paper.newPage();
    paper.heading(w('terminations'));
    terminations(paper, input, w);
  }
  for (const [k, id] of input.photos.entries()) {
    if (k === 0) paper.newPage();
    await photoPart(paper, await input.photo(id), k + 1, input, w);
    onPhoto(k + 1, input.photos.length);
  }
  signatures(paper, view.turnover.signatures, input, w);
  return paper.finish(w('foot'), (page, of) => w('page', { page, of }));
}

type Words = (code: string, values?: Message['values']) => string;

const cells = (...texts: readonly string[]): Cell[] => texts.map((text) => ({ text }));

function cover(paper: Paper, { title, by, demo, madeAt, view, log, photos }: ReportInput, w: Words): void {
  paper.heading(title, 20);
  if (demo) paper.text(w('demo'), { strong: true });
  paper.text(w('by', { by: by || '-', at: madeAt }));
  paper.gap(8);
  paper.text(w('caution'), { strong: true });
  paper.text(w('color-only'));
  paper.gap(8);
  const { counts } = view;
  if (view.compared.length > 0) {
    const values = {
      match: counts.match,
      differs: counts.differs,
      unsure: counts['cannot tell'],
      missing: counts.missing,
    };
    paper.text(w('counts', { terminations: view.compared.length, photos: photos.length, ...values }));
    paper.text(w('open', { open: view.open, all: view.deviations.length }));
  } else paper.text(w('photos', { photos: photos.length }));
  const last = log.at(-1);
  if (last) {
    paper.gap(8);
    paper.text(w('log', { entries: log.length, at: last.at }));
    paper.text(w('hash', { hash: last.hash }));
  }
}

function deviations(paper: Paper, { view, say }: ReportInput, w: Words): void {
  if (view.deviations.length === 0) {
    paper.text(w('no-deviations'));
    return;
  }
  const byId = new Map(view.compared.map(({ termination: t }) => [t.id, t]));
  const where = (d: Deviation): string => {
    const t = d.termination === null ? undefined : byId.get(d.termination);
    return `${t?.space ?? t?.circuit ?? ''} ${t ? w(`part-${t.part}`) : ''}`.trim();
  };
  const rows = grouped(view).map(([d, ...more]): Cell[] => {
    const handled = view.turnover.handled[d.id];
    const comments = handled?.comments.map((c) => `${c.text} (${c.by}, ${c.at})`) ?? [];
    const state = handled?.closed ? w('closed', { by: handled.closed.by, at: handled.closed.at }) : w('still-open');
    const places = [d, ...more].map(where).join(', ');
    const many = more.length > 0 ? [w('times', { count: more.length + 1 })] : [];
    return [
      { text: w(`severity-${d.severity}`), strong: d.severity === 'danger' || d.severity === 'violation' },
      { text: `${d.panel} ${places}`.trim() },
      { text: [say(d.message), ...many, ...comments].join(' / ') },
      { text: handled?.assigned?.to ?? '' },
      { text: state },
    ];
  });
  paper.table(
    [0.12, 0.18, 0.42, 0.12, 0.16],
    ['severity', 'place', 'what', 'assigned', 'state'].map((c) => w(`head-${c}`)),
    rows,
  );
}

/** Deviations that say the same of one panel and were not handled one by one stand together, in the order of the first. */
function grouped({ deviations, turnover }: TurnoverView): (readonly [Deviation, ...Deviation[]])[] {
  const groups = new Map<string, [Deviation, ...Deviation[]]>();
  for (const d of deviations) {
    const key = turnover.handled[d.id] ? d.id : JSON.stringify([d.panel, d.severity, d.message]);
    const group = groups.get(key);
    if (group) group.push(d);
    else groups.set(key, [d]);
  }
  return [...groups.values()];
}

function terminations(paper: Paper, { view, say }: ReportInput, w: Words): void {
  const head = ['place', 'circuit', 'expected', 'seen', 'result', 'standing', 'entered'].map((c) => w(`head-${c}`));
  paper.table(
    [0.13, 0.16, 0.12, 0.15, 0.12, 0.1, 0.22],
    head,
    view.compared.map((c) => terminationRow(c, view, say, w)),
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
  paper.need(380);
  paper.heading(w('photo', { number, name: findings.photo.name }), 11);
  for (const p of places)
    paper.text(
      w('taken-at', { panel: p.panel, space: p.space ?? '-', how: `record.report.how-${p.how.replaceAll(' ', '-')}` }),
      { size: 8 },
    );
  paper.text(`SHA-256 ${findings.photo.sha256}`, { size: 7 });
  if (photo.note) paper.text(w('note', { note: photo.note }), { size: 8 });
  for (const reason of findings.capture.reasons) paper.text(say(reason), { size: 8 });
  const jpeg = await input.picture(photo.id);
  if (jpeg) await drawPhoto(paper, jpeg, findings);
  else paper.text(w('no-picture'), { size: 8 });
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
  if (rows.length === 0) paper.text(w('none-found'), { size: 8 });
  else
    paper.table(
      [0.06, 0.3, 0.24, 0.26, 0.14],
      ['number', 'color', 'marks', 'role', 'standing'].map((c) => w(`head-${c}`)),
      rows,
    );
  readings(paper, photo, label, w);
  for (const f of findings.map.findings)
    paper.text(`${w(`severity-${f.severity}`)}: ${say(labeled(f.message, label))}`, { size: 8 });
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

function readings(paper: Paper, photo: JobPhoto, label: ReadonlyMap<string, string>, w: Words): void {
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
  paper.table(
    [0.24, 0.24, 0.18, 0.16, 0.18],
    ['between', 'function', 'value', 'by', 'at'].map((c) => w(`head-${c}`)),
    rows,
  );
}

function signatures(paper: Paper, signed: readonly Signature[], input: ReportInput, w: Words): void {
  paper.need(140);
  paper.heading(w('signatures'));
  paper.text(w('signing'), { size: 8 });
  for (const s of signed) {
    const height = 46;
    const { page, x, y } = paper.place(height);
    for (const stroke of s.strokes ?? []) {
      const [first, ...rest] = stroke;
      if (!first) continue;
      const at = ([px, py]: readonly [number, number]): string => `${x + px * 180} ${-(y + height - py * height)}`;
      page.drawSvgPath([`M ${at(first)}`, ...rest.map((p) => `L ${at(p)}`)].join(' '), {
        x: 0,
        y: 0,
        borderColor: rgb(0, 0, 0),
        borderWidth: 1.2,
      });
    }
    paper.text(w(s.strokes ? 'signed-drawn' : 'signed-typed', { by: s.by, capacity: s.capacity, at: s.at }));
    paper.text(w('covers', { hash: s.covers }), { size: 7 });
    const current = input.log.at(-1)?.jobHash;
    if (current !== undefined && !input.log.some((entry) => entry.jobHash === s.covers))
      paper.text(w('covers-unknown'), { strong: true, size: 8 });
  }
  if (signed.length === 0) {
    for (let k = 0; k < 2; k++) {
      paper.gap(34);
      paper.text('________________________________________    ____________________');
      paper.text(w('sign-here'), { size: 8 });
    }
  }
}
