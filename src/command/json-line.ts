import type { Along, Findings, InsulationColor, NamedConductor, Point, Problem } from '../flow';
import { say, sayAll } from '../words';

export interface ProbeAnswer {
  /** Full-size pixels, as asked. */
  readonly at: Point;
  /** Working pixels. */
  readonly conductor: NamedConductor | null;
  /** Color of the tape that lies at the point; null where it is insulation. */
  readonly touched: InsulationColor | null;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
const thousandth = (value: number): number => Math.round(value * 1000) / 1000;

/** Working pixels to pixels of the full-size upright photo, along each axis. */
interface Scale {
  readonly x: number;
  readonly y: number;
}

function conductorForm(c: NamedConductor, { x, y }: Scale) {
  const place = (p: Point): [number, number] => [tenth(p[0] * x), tenth(p[1] * y)];
  const { insulation, stripe } = c;
  return {
    id: c.id,
    covering: c.covering,
    outlines: c.outlines.map((outline) => outline.map(place)),
    centerline: c.centerline.map(place),
    widthPx: tenth((c.widthPx * (x + y)) / 2),
    insulation: colorForm(insulation),
    stripe: stripe && { ...stripe, confidence: thousandth(stripe.confidence) },
    hiddenStripe: thousandth(c.hiddenStripe),
    tape: c.tape.map((t) => ({
      name: t.name,
      confidence: thousandth(t.confidence),
      at: place(t.at),
      ...(t.stretch ? { stretch: t.stretch.map(thousandth) } : {}),
      ...(t.cover === undefined ? {} : { cover: thousandth(t.cover) }),
    })),
    ...(c.along ? { along: alongForm(c.along) } : {}),
  };
}

const colorForm = ({ best, confidence, candidates, set, lab }: InsulationColor) => ({
  best,
  confidence: thousandth(confidence),
  candidates: candidates.map(({ name, probability }) => ({ name, probability: thousandth(probability) })),
  set,
  lab: lab.map(tenth),
});

const alongForm = ({ bare, print, fading, diameters }: Along) => ({
  diameters: tenth(diameters),
  bare: bare.map((b) => ({
    stretch: b.stretch.map(thousandth),
    confidence: thousandth(b.confidence),
    diameters: tenth(b.diameters),
    metal: b.metal,
    place: b.place,
    ...(b.fitting ? { fitting: b.fitting } : {}),
  })),
  ...(print ? { print: print.map((stretch) => stretch.map(thousandth)) } : {}),
  fading: fading && {
    toward: fading.toward,
    left: thousandth(fading.left),
    cleanest: fading.cleanest.map(thousandth),
  },
});

/**
 * One photo's findings as one JSON line: coordinates in pixels of the full-size upright photo, `probes` only when
 * points were asked for.
 */
export function jsonLine(findings: Findings, probes: readonly ProbeAnswer[] | undefined): string {
  const { photo, capture, light } = findings;
  const scale = { x: photo.width / findings.workingWidth, y: photo.height / findings.workingHeight };
  const roles = new Map(findings.map.assignments.map((a) => [a.conductor, a.roles]));
  const form = (c: NamedConductor) => ({
    ...conductorForm(c, scale),
    roles: (roles.get(c.id) ?? []).map((r) => ({ ...r, probability: thousandth(r.probability) })),
  });
  return JSON.stringify({
    photo: photo.name,
    width: photo.width,
    height: photo.height,
    elapsedMs: Math.round(findings.elapsedMs),
    capture: { verdict: capture.verdict, reasons: sayAll(capture.reasons) },
    light: {
      xy: light.xy.map((v) => Math.round(v * 1e4) / 1e4),
      errorDeg: tenth(light.errorDeg),
      basis: light.basis,
      ...(light.flash ? { flash: true } : {}),
    },
    conductors: findings.conductors.map(form),
    ...(probes
      ? {
          probes: probes.map(({ at, conductor, touched }) => ({
            x: at[0],
            y: at[1],
            conductor: conductor && (touched ? pointedAt(form(conductor), touched) : form(conductor)),
          })),
        }
      : {}),
  });
}

/**
 * Somebody pointed at tape: `insulation` answers what was pointed at, as it does everywhere else, `beneath` is the
 * insulation beside the tape, and `pointedAt` says so.
 */
const pointedAt = <Form extends { readonly insulation: ReturnType<typeof colorForm> }>(
  form: Form,
  touched: InsulationColor,
) => ({ ...form, insulation: colorForm(touched), pointedAt: 'tape' as const, beneath: form.insulation });

/** The line of a photo that could not be read: it keeps its place, has no conductors, and says why. */
export const problemLine = (name: string, problem: Problem): string =>
  JSON.stringify({
    photo: name,
    problem: { kind: problem.kind, what: say(problem.what), todo: say(problem.todo) },
    conductors: [],
  });
