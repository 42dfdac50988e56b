import { describe, expect, it } from 'vitest';
import { type LightPosterior, nameInsulations, type RibbonReading } from '../../../src/color';
import { priorModes } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import type { ColorName, FineRibbon, Point } from '../../../src/flow';
import { makeFine, type Rgb } from './make-fine';

const LIGHT: LightPosterior = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
const BLACK: Rgb = [0.012, 0.012, 0.013];
const BLUE: Rgb = [0.03, 0.08, 0.42];
const WHITE: Rgb = [0.62, 0.61, 0.58];
const YELLOW: Rgb = [0.62, 0.44, 0.03];

const pixels = (rgb: Rgb): Float32Array => Float32Array.from({ length: 27 }, (_, k) => 0.8 * rgb[k % 3]!);
const at = (fine: FineRibbon, row: number): Point => fine.centers[row]!;
const read = (fine: FineRibbon, finger: Point | null, touched: Float32Array | null): RibbonReading =>
  nameInsulations([fine], LIGHT, { fine: [fine], fingers: [finger], touched: [touched] }).readings[0]!;
const TAPED = makeFine({ body: BLACK, on: [{ rgb: BLUE, where: (i) => i < 30 }] });

describe('a finger on what lies on a conductor', () => {
  it('on the tape is told the color of the tape beside that of the insulation', () => {
    const { insulation, touched, tape } = read(TAPED, at(TAPED, 12), pixels(BLUE));
    expect(tape.map((t) => t.name)).toEqual(['blue']);
    expect(touched?.best).toBe('blue');
    expect(insulation.best).toBe('black');
  });

  it('twin: beside the tape, or found without a finger, is told of the insulation only', () => {
    for (const reading of [read(TAPED, at(TAPED, 70), pixels(BLACK)), read(TAPED, null, null)]) {
      expect(reading.tape.map((t) => t.name)).toEqual(['blue']);
      expect(reading.touched).toBeNull();
    }
  });

  it('on a color that is neither body nor stripe nor tape: the finer look saw another conductor and is not used', () => {
    const { tape, touched } = read(TAPED, at(TAPED, 70), pixels(YELLOW));
    expect(tape).toEqual([]);
    expect(touched).toBeNull();
  });

  it('on the stripe of a striped conductor keeps the finer look', () => {
    const rings = { rgb: YELLOW, where: (i: number) => i % 24 < 6 };
    const fine = makeFine({ body: BLUE, on: [rings], length: 192, widthPx: 20 });
    const onBody = read(fine, at(fine, 12), pixels(BLUE));
    expect(onBody.stripe?.name).toBe('yellow');
    expect(read(fine, at(fine, 2), pixels(YELLOW)).stripe?.name).toBe('yellow');
  });
});

describe('a stripe', () => {
  const ringed = (rgb: Rgb): RibbonReading =>
    read(makeFine({ body: BLUE, on: [{ rgb, where: (i) => i % 24 < 6 }], length: 192, widthPx: 20 }), null, null);

  it("of the insulation's own color, paler or darker, is none", () => {
    for (const own of [
      [0.09, 0.2, 0.62],
      [0.012, 0.03, 0.16],
    ] as const) {
      const { stripe, insulation } = ringed(own);
      expect(insulation.best).toBe('blue');
      expect(stripe).toBeNull();
    }
  });

  it('twin: of another color is told', () => {
    expect(ringed(YELLOW).stripe?.name).toBe('yellow');
  });
});

describe('things of known color that were touched', () => {
  const named = (references: Parameters<typeof nameInsulations>[2]) =>
    nameInsulations([makeFine({ body: WHITE })], LIGHT, references).readings[0]!.insulation;

  it('say nothing without pixels, nor without the name of the color', () => {
    const plain = named({});
    const empty = named({ references: [{ kind: 'white', rgb: new Float32Array() }] });
    expect(empty.candidates).toEqual(plain.candidates);
    const nameless = named({ references: [{ kind: 'known color', rgb: pixels(BLUE) }] });
    expect(nameless.candidates).toEqual(plain.candidates);
    // Twin: with its name it does.
    const name: ColorName = 'turquoise';
    expect(named({ references: [{ kind: 'known color', name, rgb: pixels(BLUE) }] }).candidates).not.toEqual(
      plain.candidates,
    );
  });
});
