import { COLOR_NAMES, type ColorName, IEC_60757 } from '../../flow';

/** Short forms on US drawings and schedules. Common practice, no source. */
const SHORT: Readonly<Record<string, ColorName>> = {
  blk: 'black',
  brn: 'brown',
  red: 'red',
  org: 'orange',
  orn: 'orange',
  yel: 'yellow',
  ylw: 'yellow',
  grn: 'green',
  blu: 'blue',
  vio: 'violet',
  pur: 'violet',
  purple: 'violet',
  gry: 'gray',
  gra: 'gray',
  grey: 'gray',
  wht: 'white',
  pnk: 'pink',
};

const NAMES: ReadonlyMap<string, ColorName> = new Map([
  ...COLOR_NAMES.map((name) => [name, name] as const),
  ...COLOR_NAMES.map((name) => [IEC_60757[name].toLowerCase(), name] as const),
  ...Object.entries(SHORT),
]);

/** A color with its stripe, as a schedule asks for it. */
export interface ColorText {
  readonly color: ColorName;
  readonly stripe: ColorName | null;
}

const one = (word: string): ColorName | null => NAMES.get(word.trim().toLowerCase()) ?? null;

/** "BK", "black", "WH/BU", "white with blue stripe", "green/yellow"; null when it cannot be said which is meant. */
export function readColor(text: string): ColorText | null {
  const words = text
    .toLowerCase()
    .replaceAll(/\b(?:stripes?|tracer|with|w)\b/g, ' ')
    .split(/[\s/\\+-]+/)
    .filter((word) => word !== '');
  const [first, second, ...more] = words.map(one);
  if (!first || second === null || more.length > 0) return null;
  if (!second) return { color: first, stripe: null };
  const pair = new Set([first, second]);
  if (pair.has('green') && pair.has('yellow')) return { color: 'green-yellow', stripe: null };
  return first === second ? null : { color: first, stripe: second };
}

/**
 * The colors of a breaker's poles: one for each, or one for all. "BK/RD/BU" on three poles is three colors, on one
 * pole nothing; "WH/BU" on one pole is white with a blue stripe.
 */
export function readColors(text: string, poles: number): readonly ColorText[] | null {
  const parts = text.split(/\s*[,;/|]\s*|\s+&\s+|\s+and\s+/i).filter((part) => part !== '');
  if (poles > 1 && parts.length === poles) {
    const colors = parts.map(readColor);
    return colors.every((c) => c !== null) ? colors : null;
  }
  const single = readColor(text);
  return single && Array.from({ length: poles }, () => single);
}
