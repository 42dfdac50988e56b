import {
  advise,
  claimedRows,
  compareInsulations,
  doubtDrawn,
  doubtPresence,
  doubtStrays,
  estimateLight,
  huePicture,
  type LightPosterior,
  looksDrawn,
  nameInsulations,
  type ReferenceSample,
  type RibbonReading,
} from '../color';
import {
  type ColorReference,
  type Conductor,
  type Findings,
  type FineRibbon,
  type NamedConductor,
  type Point,
  Problem,
  type Ribbon,
  throwIfCancelled,
} from '../flow';
import { identify } from '../identify';
import { captureVerdict, type DecodedPhoto, ofDrawing, withConductorWidths, withSettledLight } from '../photo';
import {
  claiming,
  findConductors,
  fineRibbonNear,
  fineRibbonOf,
  makeTraceable,
  networkColorOf,
  retrace,
  ribbonNear,
  ribbonOf,
  type Segmenter,
  type Traceable,
  type TracedConductor,
  traceStroke,
  traceTap,
} from '../vision';
import { type HueCheck, type InspectRequest, NOTHING_KNOWN, type Probe, type Stage } from './stages';
import { asTouched, networkBareOf, pixelsRound, underFinger } from './touch';

/** Pixels around a tapped reference that speak for it. */
const REFERENCE_RADIUS = 5;

/**
 * One photo opened for reading: found once, then traced, named and renamed as often as the user asks. The same code
 * in the browser's worker and in Node; only decoding and the choice of segmenter differ.
 */
export class OpenPhoto {
  private constructor(
    private readonly photo: DecodedPhoto,
    private readonly traceable: Traceable,
    /** The light as the pixels tell it, before any reference. */
    private readonly statistics: LightPosterior,
    /** The light after all conductors were heard: what later taps are named under. */
    private settled: LightPosterior,
    private readonly traced: Map<string, TracedConductor>,
    /** Where a conductor was tapped: the color under the finger outranks what the trace strayed over. */
    private readonly fingers: Map<string, Point>,
    /** The picture is a drawing or a screen: no name in it is sure. */
    private readonly drawn: boolean,
    readonly findings: Findings,
    readonly probes: readonly Probe[],
  ) {}

  /**
   * Reads a photo from pixels to phase map. `decode` is run first so that its time is told too.
   * @throws Problem of decoding; 'cancelled'; 'engine unavailable', 'engine failed' of the segmenter.
   */
  static async open(
    decode: () => Promise<DecodedPhoto>,
    segmenter: Segmenter,
    request: InspectRequest = {},
  ): Promise<OpenPhoto> {
    const clock = new StageClock(request);
    const photo = await clock.run('decode', decode);
    const { raster, facts, scale } = photo;
    const { light, capture } = await clock.run('light', () => {
      const light = estimateLight(raster, facts.flashFired);
      return { light, capture: captureVerdict(raster, facts, light) };
    });
    const planes = await clock.run('segment', () =>
      segmenter.segment(raster, request.signal, (share) => request.onStage?.('segment', share)),
    );
    const { traceable, found, tapped } = await clock.run('trace', () => {
      const traceable = makeTraceable(raster, planes);
      const at = (request.at ?? []).map(([x, y]): Point => [x * scale, y * scale]);
      return {
        traceable,
        found: findConductors(traceable),
        tapped: at.map((point) => ({ point, traced: traceTap(traceable, point) })),
      };
    });
    const quality = qualityOf(capture.measures);
    const { named, probeAnswers, settled, drawn } = await clock.run('name', () => {
      const taps = tapped.flatMap(({ point, traced }) => (traced ? [{ point, traced }] : []));
      const ribbons = [
        ...found.map((one) => ribbonOf(traceable, one, quality)),
        ...taps.map(({ point, traced }) => ribbonNear(traceable, traced, point, quality)),
      ];
      const network = [...found, ...taps.map((t) => t.traced)].map((one) => networkColorOf(traceable, one));
      const touched = [
        ...found.map(() => null),
        ...taps.map(({ point, traced }) => underFinger(raster, point, traced.conductor.widthPx)),
      ];
      const { readings, light: settled } = nameInsulations(ribbons, light, {
        networkColor: network,
        networkBare: [...found, ...taps.map((t) => t.traced)].map(networkBareOf),
        touched,
        fine: [
          ...found.map((one) => fineRibbonOf(traceable, one, quality)),
          ...taps.map(({ point, traced }) => fineRibbonNear(traceable, traced, point, quality)),
        ],
        fingers: [...found.map(() => null), ...taps.map(({ point }) => point)],
      });
      const drawn = looksDrawn(readings.slice(0, found.length));
      const answers = new Map(
        taps.map(({ traced, point }, k) => {
          const reading = asTouched(traceable, point, traced, readings[found.length + k]!, quality, settled);
          return [traced, { conductor: nameIt(traced.conductor, reading, drawn), touched: reading.touched }];
        }),
      );
      // A finger means one place; what was found by itself may have run from one conductor onto another.
      const own = { ribbons: ribbons.slice(0, found.length), readings: readings.slice(0, found.length) };
      const whole = doubtFound(
        own.ribbons,
        own.readings,
        settled,
        found.map((one) => one.conductor),
      );
      const claims = claimedRows(own.ribbons, own.readings, settled);
      return {
        named: found.map((one, k) => {
          const rows = claims[k];
          return nameIt(rows ? claiming(one, rows) : one.conductor, whole[k]!, drawn);
        }),
        probeAnswers: tapped.map(({ traced }) => (traced ? (answers.get(traced) ?? null) : null)),
        settled,
        drawn,
      };
    });
    const map = await clock.run('map', () => identify(named, request.knowledge ?? NOTHING_KNOWN));
    const findings: Findings = {
      photo: facts,
      workingWidth: raster.width,
      workingHeight: raster.height,
      capture: withConductorWidths(
        drawn ? ofDrawing(withSettledLight(capture, settled)) : withSettledLight(capture, settled),
        named.map((c) => c.widthPx),
      ),
      light: plainLight(settled),
      conductors: named,
      references: [],
      map,
      segmenter: planes.by,
      elapsedMs: clock.total(),
      stages: clock.stages,
    };
    const probes = (request.at ?? []).map(
      (at, k): Probe => ({
        at,
        conductor: probeAnswers[k]?.conductor ?? null,
        touched: probeAnswers[k]?.touched ?? null,
      }),
    );
    const all = [...found, ...tapped.flatMap(({ traced }) => (traced ? [traced] : []))];
    const fingers = tapped.flatMap(({ point, traced }) => (traced ? [[traced.conductor.id, point] as const] : []));
    return new OpenPhoto(
      photo,
      traceable,
      withLampsOf(light, settled),
      settled,
      new Map(all.map((t) => [t.conductor.id, t])),
      new Map(fingers),
      drawn,
      findings,
      probes,
    );
  }

  /** The conductor under a point of the working image, named; null outside the picture. */
  trace(at: Point): NamedConductor | null {
    const traced = traceTap(this.traceable, at);
    if (!traced) return null;
    this.fingers.set(traced.conductor.id, at);
    const { traceable } = this;
    const quality = this.quality();
    return this.name(
      traced,
      ribbonNear(traceable, traced, at, quality),
      fineRibbonNear(traceable, traced, at, quality),
    );
  }

  /** The conductor along a stroke over the working image, named; null where the stroke leaves the picture. */
  traceStroke(stroke: readonly Point[]): NamedConductor | null {
    const traced = traceStroke(this.traceable, stroke);
    if (!traced) return null;
    const { traceable } = this;
    const quality = this.quality();
    return this.name(traced, ribbonOf(traceable, traced, quality), fineRibbonOf(traceable, traced, quality));
  }

  /**
   * Names conductors again under tapped references (working pixels); they share the light. In the order given.
   * Conductors need not be known here: edited ones (split, joined) are retraced from their center lines.
   */
  reread(references: readonly ColorReference[], conductors: readonly Conductor[]): NamedConductor[] {
    const traced = conductors.map((c) => this.tracedOf(c));
    const ribbons = traced.map((one) => ribbonOf(this.traceable, one, this.quality()));
    const touched = traced.map((one) => this.touchOf(one));
    const { readings, light } = nameInsulations(ribbons, this.statistics, {
      references: references.map((r) => this.sampleReference(r)),
      networkColor: traced.map((one) => networkColorOf(this.traceable, one)),
      networkBare: traced.map(networkBareOf),
      touched,
      fine: traced.map((one) => fineRibbonOf(this.traceable, one, this.quality())),
      fingers: traced.map(({ conductor }) => this.fingers.get(conductor.id) ?? null),
    });
    this.settled = light;
    const whole = doubtFound(ribbons, readings, light, conductors);
    return conductors.map((conductor, k) => {
      const at = this.fingers.get(conductor.id);
      const reading = at ? asTouched(this.traceable, at, traced[k]!, readings[k]!, this.quality(), light) : whole[k]!;
      return nameIt(conductor, reading, this.drawn);
    });
  }

  /**
   * A closer look at the color of one conductor under tapped references: where it lies among the names, what would help
   * most, and, beside another conductor, whether both are of one color. Null where no pixel of it could be read.
   */
  hue(references: readonly ColorReference[], conductor: Conductor, other?: Conductor): HueCheck | null {
    const traced = [conductor, ...(other ? [other] : [])].map((c) => this.tracedOf(c));
    const ribbons = traced.map((one) => ribbonOf(this.traceable, one, this.quality()));
    const tapped = references.length > 0;
    const found = nameInsulations(ribbons, tapped ? this.statistics : this.settled, {
      references: references.map((r) => this.sampleReference(r)),
      touched: traced.map((one) => this.touchOf(one)),
      fine: traced.map((one) => fineRibbonOf(this.traceable, one, this.quality())),
      fingers: traced.map(({ conductor: c }) => this.fingers.get(c.id) ?? null),
    });
    // The settled light has heard these conductors already.
    const light = tapped ? found.light : this.settled;
    const [body, beside] = found.readings.map((r) => r.body);
    if (!body) return null;
    return {
      picture: huePicture(body, light),
      advice: advise(body, light),
      comparison: beside ? compareInsulations(body, beside, light) : null,
    };
  }

  /** A conductor straightened, for the screen. */
  ribbon(conductor: Conductor): Ribbon {
    return ribbonOf(this.traceable, this.tracedOf(conductor), this.quality());
  }

  /** The working image, for drawing. */
  get picture(): DecodedPhoto['raster'] {
    return this.photo.raster;
  }

  /** The light now in force. */
  get light(): LightPosterior {
    return this.settled;
  }

  private quality() {
    return qualityOf(this.findings.capture.measures);
  }

  private name(traced: TracedConductor, ribbon: Ribbon, fine: FineRibbon): NamedConductor {
    this.traced.set(traced.conductor.id, traced);
    const touched = this.touchOf(traced);
    const { readings } = nameInsulations([ribbon], this.settled, {
      networkColor: [networkColorOf(this.traceable, traced)],
      networkBare: [networkBareOf(traced)],
      touched: [touched],
      fine: [fine],
      fingers: [this.fingers.get(traced.conductor.id) ?? null],
    });
    const at = this.fingers.get(traced.conductor.id);
    const reading = at
      ? asTouched(this.traceable, at, traced, readings[0]!, this.quality(), this.settled)
      : doubtStrays([ribbon], readings, this.settled)[0]!;
    return nameIt(traced.conductor, reading, this.drawn);
  }

  private tracedOf(conductor: Conductor): TracedConductor {
    const known = this.traced.get(conductor.id);
    const same = known && known.conductor.centerline.length === conductor.centerline.length;
    return same ? known : retrace(this.traceable, conductor);
  }

  private touchOf({ conductor }: TracedConductor): Float32Array | null {
    const at = this.fingers.get(conductor.id);
    return at ? underFinger(this.photo.raster, at, conductor.widthPx) : null;
  }

  private sampleReference({ at, kind, name }: ColorReference): ReferenceSample {
    const { rgb: all, usable } = pixelsRound(this.photo.raster, at, REFERENCE_RADIUS);
    const rgb = all.filter((_, k) => usable[Math.floor(k / 3)] === 1);
    return name === undefined ? { kind, rgb } : { kind, name, rgb };
  }
}

/** Readings of what was found with nobody pointing: some ran onto a neighbor, some are no conductors. */
const doubtFound = (
  ribbons: readonly Ribbon[],
  readings: readonly RibbonReading[],
  light: LightPosterior,
  conductors: readonly Conductor[],
): RibbonReading[] =>
  doubtPresence(
    doubtStrays(ribbons, readings, light),
    conductors.map((c) => c.presence),
  );

const qualityOf = (measures: Findings['capture']['measures']) => ({
  noiseLevel: measures.noiseLevel,
  blurPx: measures.blurPx,
});

function nameIt(conductor: Conductor, read: RibbonReading, drawn: boolean): NamedConductor {
  const reading = drawn ? doubtDrawn(read) : read;
  return {
    ...conductor,
    covering: reading.covering,
    coveringConfidence: reading.coveringConfidence,
    insulation: reading.insulation,
    stripe: reading.stripe,
    hiddenStripe: reading.hiddenStripe,
    tape: reading.tape,
    ...(reading.along ? { along: reading.along } : {}),
  };
}

/** The part of the posterior that goes into the record. */
const plainLight = ({ mean, xy, errorDeg, basis, flash }: LightPosterior): Findings['light'] => ({
  mean,
  xy,
  errorDeg,
  basis,
  ...(flash ? { flash } : {}),
});

/** Before the conductors' names were heard, but with what they told of the lamps. */
const withLampsOf = (light: LightPosterior, { mixedLightDeg, toldByConductors }: LightPosterior): LightPosterior =>
  toldByConductors === undefined ? light : { ...light, mixedLightDeg, toldByConductors };

/** Times the stages, tells progress, and stops between stages when the user cancelled. */
class StageClock {
  readonly stages: Partial<Record<Stage, number>> = {};
  private readonly start = performance.now();

  constructor(private readonly request: InspectRequest) {}

  async run<T>(stage: Stage, work: () => T | Promise<T>): Promise<T> {
    throwIfCancelled(this.request.signal);
    this.request.onStage?.(stage, 0);
    const begun = performance.now();
    try {
      return await work();
    } catch (error) {
      throw error instanceof Problem ? error : new Problem('engine failed', undefined, error);
    } finally {
      this.stages[stage] = performance.now() - begun;
      this.request.onStage?.(stage, 1);
    }
  }

  total(): number {
    return performance.now() - this.start;
  }
}
