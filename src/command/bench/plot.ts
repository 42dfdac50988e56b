import type { PowerLaw } from './statistics';

export interface Series {
  readonly name: string;
  readonly unit: string;
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly fit: PowerLaw;
}

const SIDE = 360;
const EDGE = 56;

/** One square of two logarithmic axes with its points and the fitted line. */
function panel({ name, unit, points, fit }: Series, left: number): string {
  const logs = points.map(([x, y]) => [Math.log10(x), Math.log10(y)] as const);
  const range = (k: 0 | 1): readonly [number, number] => {
    const values = logs.map((p) => p[k]);
    return [Math.min(...values) - 0.15, Math.max(...values) + 0.15];
  };
  const [xs, ys] = [range(0), range(1)];
  const px = (x: number): number => left + EDGE + ((x - xs[0]) / (xs[1] - xs[0])) * (SIDE - 2 * EDGE);
  const py = (y: number): number => SIDE - EDGE - ((y - ys[0]) / (ys[1] - ys[0])) * (SIDE - 2 * EDGE);
  const at = (x: number): number => Math.log10(fit.factor) + fit.exponent * x;
  const dots = logs
    .map(([x, y], k) => {
      const [value, ms] = points[k]!;
      return `<circle cx="${px(x).toFixed(1)}" cy="${py(y).toFixed(1)}" r="4"/><text x="${px(x).toFixed(1)}" y="${(py(y) - 9).toFixed(1)}" text-anchor="middle">${Math.round(ms)} ms</text><text x="${px(x).toFixed(1)}" y="${SIDE - EDGE + 16}" text-anchor="middle">${value}</text>`;
    })
    .join('');
  const line = `<path d="M${px(xs[0]).toFixed(1)} ${py(at(xs[0])).toFixed(1)}L${px(xs[1]).toFixed(1)} ${py(at(xs[1])).toFixed(1)}" stroke="#2f6f9f" stroke-dasharray="5 4" fill="none"/>`;
  const frame = `<path d="M${left + EDGE} ${EDGE - 16}V${SIDE - EDGE}H${left + SIDE - EDGE + 16}" stroke="#333" fill="none"/>`;
  const head = `<text x="${left + EDGE}" y="24" font-weight="bold">${name}: time grows as ${unit} ^ ${fit.exponent.toFixed(2)}</text>`;
  const foot = `<text x="${left + SIDE / 2}" y="${SIDE - 14}" text-anchor="middle">${unit}</text>`;
  return head + frame + line + dots + foot;
}

/** How time grows, as SVG: one square a series, both axes logarithmic. */
export function growthPlot(series: readonly Series[]): string {
  const width = SIDE * series.length;
  const body = series.map((one, k) => panel(one, k * SIDE)).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${SIDE}" font-family="sans-serif" font-size="12"><rect width="100%" height="100%" fill="#fff"/>${body}</svg>\n`;
}
