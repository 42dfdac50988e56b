/**
 * The names an insulation color can have. All but `green-yellow` are the single colors of IEC 60757;
 * `green-yellow` is the two-color combination that IEC 60445 reserves for the protective conductor.
 */
export const COLOR_NAMES = [
  'black',
  'brown',
  'red',
  'orange',
  'yellow',
  'green',
  'blue',
  'violet',
  'gray',
  'white',
  'pink',
  'turquoise',
  'green-yellow',
] as const;

export type ColorName = (typeof COLOR_NAMES)[number];

/** Letter codes of IEC 60757 (status: read, secondary text of the 1983 and 2021 editions; see test/published). */
export const IEC_60757: Readonly<Record<ColorName, string>> = {
  black: 'BK',
  brown: 'BN',
  red: 'RD',
  orange: 'OG',
  yellow: 'YE',
  green: 'GN',
  blue: 'BU',
  violet: 'VT',
  gray: 'GY',
  white: 'WH',
  pink: 'PK',
  turquoise: 'TQ',
  'green-yellow': 'GNYE',
};

export const isColorName = (value: unknown): value is ColorName =>
  typeof value === 'string' && (COLOR_NAMES as readonly string[]).includes(value);
