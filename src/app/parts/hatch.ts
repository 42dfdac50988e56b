import type { ColorName } from '../../flow';

/**
 * How an insulation color is drawn in a swatch: the paint is only for the eye that sees it; the hatch says the same
 * without color. Single colors follow the engraver's hatching of the 17th century where it has one (red upright,
 * blue level, green falling, violet rising, black crossed, yellow dotted, white empty); the others are ours.
 * Paints are display colors, not the palette that reading uses.
 */
export interface Paint {
  readonly fill: string;
  /** Color of the hatch lines: dark on light paints and the other way round. */
  readonly ink: string;
  /** SVG path on an 8 x 8 tile. */
  readonly hatch: string;
}

const DARK = '#000000b3';
const LIGHT = '#ffffffb3';

export const PAINTS: Readonly<Record<ColorName, Paint>> = {
  black: { fill: '#17181a', ink: LIGHT, hatch: 'M0 4h8 M4 0v8' },
  brown: { fill: '#6b4126', ink: LIGHT, hatch: 'M0 8L8 0 M2 0v8 M6 0v8' },
  red: { fill: '#c8202a', ink: LIGHT, hatch: 'M4 0v8' },
  orange: { fill: '#ee7a16', ink: DARK, hatch: 'M4 0v8 M1 4h1 M6 4h1' },
  yellow: { fill: '#f5d31c', ink: DARK, hatch: 'M1 2h2 M5 6h2' },
  green: { fill: '#1f7d3c', ink: LIGHT, hatch: 'M0 0L8 8' },
  blue: { fill: '#1f5cc0', ink: LIGHT, hatch: 'M0 4h8' },
  violet: { fill: '#6b3aa0', ink: LIGHT, hatch: 'M0 8L8 0' },
  gray: { fill: '#878c91', ink: DARK, hatch: 'M0 2h4 M4 6h4' },
  white: { fill: '#f7f7f4', ink: DARK, hatch: '' },
  pink: { fill: '#eda2b6', ink: DARK, hatch: 'M4 0v4' },
  turquoise: { fill: '#25b3ae', ink: DARK, hatch: 'M0 4l2-2 4 4 2-2' },
  'green-yellow': { fill: '#1f7d3c', ink: '#f5d31c', hatch: 'M-2 2L2-2 M-2 10L10-2 M6 10L10 6' },
};
