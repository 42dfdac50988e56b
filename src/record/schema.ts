import * as v from 'valibot';
import {
  BOARD_ORDERS,
  CHECK_CONDITIONS,
  COLOR_NAMES,
  type Job,
  type LogEntry,
  METAL_WORDS,
  METER_FUNCTIONS,
  READING_WORDS,
  ROLES,
  TAG_WORDS,
  TORQUE_UNITS,
} from '../flow';

// Objects are loose: a field that a later version added survives an import here, and the hashes cover it.

const text = v.string();
const finite = v.pipe(v.number(), v.finite());
const whole = v.pipe(v.number(), v.safeInteger());
const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1.000001));
const hex256 = v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/));
const time = v.pipe(
  v.string(),
  v.check((s) => !Number.isNaN(Date.parse(s))),
);
const colorName = v.picklist(COLOR_NAMES);
const role = v.picklist(ROLES);
const point = v.strictTuple([finite, finite]);
const list = <T extends v.GenericSchema>(item: T) => v.array(item);

/** Everything that is said of a conductor is said by its id. */
const differentIds = (all: readonly { readonly id: string }[]): boolean =>
  new Set(all.map((c) => c.id)).size === all.length;

const messageSchema = v.looseObject({
  code: text,
  values: v.exactOptional(v.record(text, v.union([text, finite]))),
});

const facts = v.looseObject({
  name: text,
  format: v.picklist(['jpeg', 'png', 'webp', 'avif', 'gif', 'heic', 'bmp', 'camera']),
  byteLength: whole,
  sha256: hex256,
  width: whole,
  height: whole,
  orientation: whole,
  animated: v.exactOptional(v.literal(true)),
  takenAt: v.exactOptional(text),
  camera: v.exactOptional(text),
  flashFired: v.exactOptional(v.boolean()),
  exposureTime: v.exactOptional(finite),
  iso: v.exactOptional(finite),
});

const capture = v.looseObject({
  verdict: v.picklist(['good', 'limited', 'retake']),
  reasons: list(messageSchema),
  measures: v.looseObject({
    blurPx: finite,
    clippedShare: share,
    medianLuminance: finite,
    litLuminance: finite,
    noiseLevel: finite,
    castDeg: finite,
    mixedLightDeg: finite,
  }),
});

const light = v.looseObject({
  mean: v.strictTuple([finite, finite, finite]),
  xy: point,
  errorDeg: finite,
  basis: v.picklist(['scene statistics', 'reference in the shot', 'assumed neutral']),
  flash: v.exactOptional(v.literal(true)),
});

const userWord = v.looseObject({
  name: v.union([colorName, v.literal('not decided')]),
  stripe: v.exactOptional(v.nullable(colorName)),
  tape: v.exactOptional(v.nullable(colorName)),
  metal: v.exactOptional(v.nullable(v.picklist(METAL_WORDS))),
  size: v.exactOptional(v.nullable(text)),
  by: text,
  at: text,
});

const endKind = v.picklist(['leaves the picture', 'hidden', 'terminal', 'cut end', 'unknown']);

const stretch = v.strictTuple([share, share]);

const conductor = v.looseObject({
  id: text,
  origin: v.picklist(['found', 'tapped', 'drawn']),
  covering: v.picklist(['insulated', 'bare']),
  coveringConfidence: share,
  presence: share,
  outlines: list(list(point)),
  centerline: list(point),
  widthPx: finite,
  ends: v.strictTuple([endKind, endKind]),
  crossings: list(v.looseObject({ at: point, with: text, overProbability: share, linkProbability: share })),
  insulation: v.looseObject({
    best: colorName,
    confidence: share,
    candidates: list(v.looseObject({ name: colorName, probability: share })),
    set: list(colorName),
    lab: v.strictTuple([finite, finite, finite]),
    doubts: list(messageSchema),
  }),
  stripe: v.nullable(
    v.looseObject({
      name: colorName,
      confidence: share,
      layout: v.picklist(['along', 'spiral', 'rings']),
      count: v.exactOptional(finite),
      dashed: v.exactOptional(v.literal(true)),
    }),
  ),
  hiddenStripe: share,
  tape: list(
    v.looseObject({
      name: colorName,
      confidence: share,
      at: point,
      stretch: v.exactOptional(stretch),
      cover: v.exactOptional(share),
      candidates: v.exactOptional(list(v.looseObject({ name: colorName, probability: share }))),
    }),
  ),
  along: v.exactOptional(
    v.looseObject({
      bare: list(
        v.looseObject({
          stretch,
          confidence: share,
          diameters: finite,
          metal: v.picklist(['copper', 'tinned copper or aluminum', 'not decided']),
          place: v.picklist(['end', 'middle']),
          fitting: v.exactOptional(v.literal('ferrule')),
        }),
      ),
      print: v.exactOptional(list(stretch)),
      fading: v.nullable(
        v.looseObject({ toward: v.picklist(['left', 'right', 'up', 'down']), left: share, cleanest: stretch }),
      ),
      diameters: finite,
    }),
  ),
  userWord: v.exactOptional(userWord),
});

const reference = v.looseObject({
  at: point,
  kind: v.picklist(['white', 'gray', 'known color']),
  name: v.exactOptional(colorName),
});

const phaseMap = v.looseObject({
  systems: list(v.looseObject({ system: text, probability: share })),
  assignments: list(
    v.looseObject({
      conductor: text,
      roles: list(v.looseObject({ system: text, role, probability: share })),
      because: list(messageSchema),
      space: v.exactOptional(whole),
    }),
  ),
  eliminated: list(v.looseObject({ system: text, why: messageSchema })),
  findings: list(
    v.looseObject({
      code: text,
      severity: v.picklist(['danger', 'violation', 'warning', 'note']),
      message: messageSchema,
      conductors: list(text),
      rule: v.exactOptional(text),
      ruleStatus: v.exactOptional(v.picklist(['read', 'from memory', 'common practice, no source'])),
    }),
  ),
});

const testPoint = v.variant('kind', [
  v.looseObject({ kind: v.literal('conductor'), conductor: text }),
  v.looseObject({ kind: v.literal('ground') }),
  v.looseObject({ kind: v.literal('neutral bar') }),
  v.looseObject({ kind: v.literal('pole'), system: text, role }),
]);

const reading = v.looseObject({
  id: text,
  from: testPoint,
  to: testPoint,
  function: v.picklist(METER_FUNCTIONS),
  third: v.exactOptional(testPoint),
  condition: v.exactOptional(v.picklist(CHECK_CONDITIONS)),
  value: v.union([finite, v.picklist(READING_WORDS)]),
  at: time,
  by: text,
  supersedes: v.exactOptional(text),
  confirmed: v.exactOptional(v.boolean()),
  takenBack: v.exactOptional(v.looseObject({ by: text, at: time })),
});

const comparison = v.looseObject({
  conductors: v.strictTuple([text, text]),
  log10Ratio: finite,
  by: text,
  at: time,
});

const sameConductor = v.looseObject({
  id: text,
  sightings: v.pipe(
    list(v.looseObject({ photo: text, conductor: text })),
    v.check((all) => all.length > 1 && new Set(all.map((s) => s.photo)).size === all.length),
  ),
  together: v.looseObject({
    best: colorName,
    confidence: share,
    candidates: list(v.looseObject({ name: colorName, probability: share })),
    set: list(colorName),
    contradicting: v.boolean(),
  }),
  by: text,
  at: time,
});

/** One photo of a job, as it stands in an archive. */
export const JobPhotoSchema = v.looseObject({
  id: text,
  findings: v.looseObject({
    photo: facts,
    workingWidth: whole,
    workingHeight: whole,
    capture,
    light,
    conductors: v.pipe(
      list(conductor),
      v.check((all) => differentIds(all)),
    ),
    references: list(reference),
    map: phaseMap,
    segmenter: text,
    elapsedMs: finite,
    stages: v.record(text, finite),
  }),
  words: v.record(text, userWord),
  readings: list(reading),
  edits: v.exactOptional(v.record(text, time)),
  comparisons: v.exactOptional(list(comparison)),
  scale: v.exactOptional(
    v.looseObject({
      ends: v.pipe(
        v.strictTuple([point, point]),
        v.check(([p, q]) => p[0] !== q[0] || p[1] !== q[1]),
      ),
      mm: v.pipe(finite, v.gtValue(0)),
      by: text,
      at: time,
    }),
  ),
  note: text,
});

const site = v.looseObject({
  jurisdiction: v.picklist(['US', 'CA', 'IEC', 'UK', 'AU', 'CN', 'IN', 'JP']),
  systems: list(text),
  legend: list(v.looseObject({ system: text, role, color: colorName, stripe: v.exactOptional(colorName) })),
  groups: list(v.looseObject({ conductors: list(text), kind: v.picklist(['circuit', 'cable', 'tag', 'breaker']) })),
  spaces: v.record(text, whole),
  board: v.exactOptional(
    v.looseObject({ order: v.picklist(BOARD_ORDERS), rows: v.exactOptional(v.pipe(whole, v.minValue(1))) }),
  ),
  tags: v.exactOptional(v.record(text, v.picklist(TAG_WORDS))),
  phasesBy: v.exactOptional(v.picklist(['color', 'tag'])),
  loads: v.exactOptional(v.record(text, v.pipe(finite, v.minValue(0)))),
});

const said = { by: text, at: time };

const termination = v.looseObject({
  sightings: v.exactOptional(
    list(v.looseObject({ photo: text, conductor: text, how: v.exactOptional(v.literal('by order')), ...said })),
  ),
  torque: v.exactOptional(v.looseObject({ value: finite, unit: v.picklist(TORQUE_UNITS), tool: text, ...said })),
  witness: v.exactOptional(v.looseObject({ seen: v.boolean(), ...said })),
  strip: v.exactOptional(v.looseObject({ mm: finite, ...said })),
  tape: v.exactOptional(v.looseObject({ text, ...said })),
});

const cell = v.exactOptional(text);
const cells = v.looseObject({
  panel: cell,
  space: cell,
  poles: cell,
  system: cell,
  phase: cell,
  circuit: cell,
  load: cell,
  color: cell,
  size: cell,
  neutral: cell,
  ground: cell,
  torque: cell,
  photo: cell,
});

const turnover = v.looseObject({
  lines: list(v.looseObject({ id: text, row: v.nullable(whole), cells, other: v.record(text, text) })),
  places: list(
    v.looseObject({
      photo: text,
      panel: text,
      space: v.exactOptional(whole),
      termination: v.exactOptional(text),
      how: v.picklist(['by hand', 'by order', 'by tag', 'by schedule']),
      after: v.exactOptional(v.literal(true)),
      ...said,
    }),
  ),
  entries: v.record(text, termination),
  handled: v.record(
    text,
    v.looseObject({
      assigned: v.exactOptional(v.looseObject({ to: text, ...said })),
      comments: list(v.looseObject({ text, ...said })),
      closed: v.exactOptional(v.looseObject({ photo: text, ...said })),
    }),
  ),
  signatures: list(
    v.looseObject({ capacity: text, strokes: v.exactOptional(list(list(point))), covers: hex256, ...said }),
  ),
});

const meter = v.looseObject({
  category: v.nullable(v.picklist(['II', 'III', 'IV'])),
  ratedVolts: finite,
  lowImpedance: v.boolean(),
  accuracy: v.exactOptional(v.looseObject({ percent: finite, volts: finite })),
});

const place = v.looseObject({
  kind: v.nullable(v.picklist(['outlet', 'panel', 'service'])),
  wetOrDamaged: v.nullable(v.boolean()),
  motors: v.boolean(),
  postedVolts: v.record(text, finite),
  way: v.picklist(['supply on', 'supply off']),
});

/** A job of schema 3, as it stands in a store or an export. */
export const JobSchema = v.looseObject({
  id: v.pipe(text, v.minLength(1), v.maxLength(200)),
  schema: v.literal(3),
  title: text,
  createdAt: time,
  by: text,
  site,
  photos: list(JobPhotoSchema),
  acknowledgements: list(v.looseObject({ step: text, by: text, at: text })),
  same: v.exactOptional(list(sameConductor)),
  turnover: v.exactOptional(turnover),
  meter: v.exactOptional(meter),
  place: v.exactOptional(place),
  demo: v.boolean(),
});

export const LogSchema = list(
  v.looseObject({
    sequence: whole,
    at: time,
    by: text,
    changes: list(messageSchema),
    jobHash: hex256,
    previous: hex256,
    hash: hex256,
  }),
);

/** An export file: the job, its log, and the photos' bytes where they were embedded. */
export const ExportSchema = v.looseObject({
  format: v.literal('hueproof job'),
  version: v.literal(1),
  exportedAt: time,
  job: v.looseObject({ schema: v.number(), photos: v.array(v.looseObject({})) }),
  log: LogSchema,
  photos: list(v.looseObject({ id: text, sha256: hex256, type: text, base64: v.nullable(text) })),
});

export type ExportFile = {
  readonly format: 'hueproof job';
  readonly version: 1;
  readonly exportedAt: string;
  readonly job: Job;
  readonly log: readonly LogEntry[];
  readonly photos: readonly {
    readonly id: string;
    readonly sha256: string;
    readonly type: string;
    /** Null when the bytes were left out. */
    readonly base64: string | null;
  }[];
};

type Loose<T> = T extends readonly unknown[]
  ? { -readonly [K in keyof T]: Loose<T[K]> }
  : T extends object
    ? { -readonly [K in keyof T]: Loose<T[K]> } & { [key: string]: unknown }
    : T;

/**
 * Compile-time tie to `flow`: a job that the program can make must be one that the schema lets in. Whoever widens
 * a type there gets an error here.
 */
export const accepts = (job: Loose<Job>): v.InferInput<typeof JobSchema> => job;
