import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { COLOR_NAMES, type ColorName, type StripeLayout } from '../../../src/flow';
import { normal, seeded } from '../../color/make-ribbon';

/** Label of legend print in the stripe plane; its high bits are the layout (render/api.h). */
const PRINT = 15;

/** What models/training/render/tool/marked.cpp put on one conductor. */
export interface Marked {
  readonly instance: number;
  readonly color: ColorName;
  /** 1 insulated conductor, 4 jacket (api.h). */
  readonly covering: number;
  readonly bare: boolean;
  readonly tinned: boolean;
  /** Strength of legend print, 0 none. */
  readonly print: number;
  readonly fade: readonly [number, number];
  /** Outer and metal diameter, mm. */
  readonly outer: number;
  readonly metal: number;
  /** Bare length at start and end, mm. */
  readonly strip: readonly [number, number];
  readonly stripe: { readonly layout: StripeLayout; readonly name: ColorName } | null;
  readonly sleeves: readonly ColorName[];
}

/** Covering classes of api.h. */
export const COVERING = { background: 0, insulated: 1, bare: 2, tape: 3, jacket: 4 } as const;

export interface MarkedScene {
  readonly id: string;
  readonly layout: string;
  readonly size: number;
  readonly conductors: ReadonlyMap<number, Marked>;
  readonly covering: Uint8Array;
  readonly color: Uint8Array;
  readonly stripe: Uint8Array;
  /** 1 where legend print lies. */
  readonly print: Uint8Array;
  readonly instance: Uint16Array;
  /** A JPEG as a camera would have made of it. */
  readonly photo: Uint8Array;
}

interface Row {
  instance: number;
  color: number;
  covering: number;
  bare: boolean;
  tinned: boolean;
  print: number;
  fade: [number, number];
  outer: number;
  metal: number;
  strip: [number, number];
  stripe: StripeLayout | '';
  stripeColor: number;
  sleeves: [color: number, length: number][];
}

export const sceneIds = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.slice(0, -5))
    .sort();

/** Reads a scene and takes a photo of it: blur, noise, compression, drawn from its seed. */
export async function openScene(folder: string, id: string): Promise<MarkedScene> {
  const { layout, size, conductors } = JSON.parse(readFileSync(join(folder, `${id}.json`), 'utf8')) as {
    layout: string;
    size: number;
    conductors: Row[];
  };
  const planes = readFileSync(join(folder, `${id}.bin`));
  const pixels = size * size;
  const plane = (k: number) => new Uint8Array(planes.buffer, planes.byteOffset + k * pixels, pixels);
  const instance = new Uint16Array(pixels);
  for (let i = 0; i < pixels; i++) instance[i] = planes.readUInt16LE(3 * pixels + 2 * i);
  const marked = conductors.map(
    (row): Marked => ({
      ...row,
      color: COLOR_NAMES[row.color]!,
      stripe: row.stripe === '' ? null : { layout: row.stripe, name: COLOR_NAMES[row.stripeColor]! },
      sleeves: row.sleeves.map(([color]) => COLOR_NAMES[color]!),
    }),
  );
  return {
    id,
    layout,
    size,
    conductors: new Map(marked.map((m) => [m.instance, m])),
    covering: plane(0),
    color: plane(1),
    stripe: plane(2).map((v) => ((v & 15) === PRINT ? 0 : v & 15)),
    print: plane(2).map((v) => Number((v & 15) === PRINT)),
    instance,
    photo: await takePhoto(join(folder, `${id}.png`), Number(BigInt(id) % 1_000_003n)),
  };
}

/** Lens and scaling blur 0.3 to 0.9 pixels, noise 1 to 4 levels, JPEG quality 82 to 95: a phone's, assumed. */
async function takePhoto(png: string, seed: number): Promise<Uint8Array> {
  const random = seeded(seed);
  const blur = 0.3 + 0.6 * random();
  const noise = 1 + 3 * random();
  const quality = Math.round(82 + 13 * random());
  const { data, info } = await sharp(png).removeAlpha().blur(blur).raw().toBuffer({ resolveWithObject: true });
  const levels = new Uint8ClampedArray(data.length);
  for (let i = 0; i < data.length; i++) levels[i] = data[i]! + noise * normal(random);
  return sharp(levels, { raw: { width: info.width, height: info.height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
}
