import type { Bin } from './rows';

const SIDE = 400;
const EDGE = 40;

/** The reliability diagram as SVG: said across, right upwards, area of a dot by the number of readings. */
export function reliabilitySvg(bins: readonly Bin[], title: string): string {
  const total = bins.reduce((sum, b) => sum + b.count, 0);
  const x = (v: number): string => (EDGE + v * SIDE).toFixed(1);
  const y = (v: number): string => (EDGE + (1 - v) * SIDE).toFixed(1);
  const dots = bins.map(
    (b) =>
      `<circle cx="${x(b.said)}" cy="${y(b.right)}" r="${(4 + 24 * Math.sqrt(b.count / total)).toFixed(1)}" fill="#1f5cc0" fill-opacity="0.6"><title>said ${b.said.toFixed(3)}, right ${b.right.toFixed(3)}, ${b.count} readings</title></circle>`,
  );
  const size = SIDE + 2 * EDGE;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size} ${size}" font-family="sans-serif" font-size="14">`,
    `<title>${title}</title><rect width="${size}" height="${size}" fill="#fff"/>`,
    `<path d="M${x(0)} ${y(0)}H${x(1)}V${y(1)}H${x(0)}ZM${x(0)} ${y(0)}L${x(1)} ${y(1)}" fill="none" stroke="#444"/>`,
    ...dots,
    `<text x="${x(0.5)}" y="${size - 12}" text-anchor="middle">probability said</text>`,
    `<text x="16" y="${y(0.5)}" text-anchor="middle" transform="rotate(-90 16 ${y(0.5)})">share right</text>`,
    '</svg>\n',
  ].join('\n');
}
