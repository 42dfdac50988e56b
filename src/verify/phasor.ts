/** A sinusoidal voltage as a point of the complex plane, volts RMS; for DC the imaginary part is 0. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
}

export const ZERO: Phasor = { re: 0, im: 0 };

/** From magnitude (volts) and angle (degrees, counter-clockwise). */
export const polar = (volts: number, degrees: number): Phasor => {
  const turn = (degrees * Math.PI) / 180;
  return { re: volts * Math.cos(turn), im: volts * Math.sin(turn) };
};

export const minus = (a: Phasor, b: Phasor): Phasor => ({ re: a.re - b.re, im: a.im - b.im });

export const times = (a: Phasor, k: number): Phasor => ({ re: a.re * k, im: a.im * k });

/** Point at fraction `t` of the way from a to b. */
export const between = (a: Phasor, b: Phasor, t: number): Phasor => ({
  re: a.re + (b.re - a.re) * t,
  im: a.im + (b.im - a.im) * t,
});

export const magnitude = (a: Phasor): number => Math.hypot(a.re, a.im);

/** What a meter between the two shows, volts. */
export const volts = (a: Phasor, b: Phasor): number => magnitude(minus(a, b));

export const centroid = (points: readonly Phasor[]): Phasor => ({
  re: points.reduce((sum, p) => sum + p.re, 0) / Math.max(points.length, 1),
  im: points.reduce((sum, p) => sum + p.im, 0) / Math.max(points.length, 1),
});
