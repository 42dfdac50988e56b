import sharp from 'sharp';
import type { Point } from '../../../src/flow';
import { normal, seeded } from '../random';
import { gainsBetween } from './lamp-gains';

/** An upright photo as sRGB bytes, three channels. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

/** A change that leaves what the photo means as it is. `move` says where a point went; null when it left the picture. */
export interface Transform {
  readonly name: string;
  apply(photo: Pixels): Promise<Uint8Array>;
  move(point: Point, photo: Pixels): Point | null;
}

export async function pixelsOf(bytes: Uint8Array): Promise<Pixels> {
  const { data, info } = await sharp(bytes)
    .rotate()
    .flatten({ background: '#fff' })
    .toColorspace('srgb')
    .raw()
    .toBuffer({
      resolveWithObject: true,
    });
  if (info.channels !== 3) throw new Error(`${info.channels} channels`);
  return { width: info.width, height: info.height, data };
}

const open = (p: Pixels) => sharp(p.data, { raw: { width: p.width, height: p.height, channels: 3 } });
/** Nothing is lost on the way back to bytes, so that only the change itself is seen. */
const lossless = (p: Pixels) => open(p).png({ compressionLevel: 1 }).toBuffer();
const stay = (point: Point): Point => point;

const LINEAR = Float64Array.from({ length: 256 }, (_, k) => {
  const v = k / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});
const encode = (v: number): number =>
  Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * Math.min(1, v) ** (1 / 2.4) - 0.055));

/** Factors on linear light, cut off at white as a sensor does. */
const gain = (name: string, [r, g, b]: readonly [number, number, number]): Transform => ({
  name,
  move: stay,
  apply: (photo) => {
    const tables = [r, g, b].map((factor) => Uint8Array.from(LINEAR, (v) => Math.min(255, encode(v * factor))));
    const data = Buffer.from(photo.data);
    for (let k = 0; k < data.length; k++) data[k] = tables[k % 3]![data[k]!]!;
    return lossless({ ...photo, data });
  },
});

const noise = (sd: number): Transform => ({
  name: `noise ${sd} levels`,
  move: stay,
  apply: (photo) => {
    const random = seeded(photo.width * 7919 + photo.height);
    // A long period of prepared noise is as good as fresh noise here, and ten times as fast.
    const grain = Float32Array.from({ length: 65_521 }, () => sd * normal(random));
    const data = Buffer.from(photo.data);
    for (let k = 0; k < data.length; k++)
      data[k] = Math.max(0, Math.min(255, Math.round(data[k]! + grain[k % grain.length]!)));
    return lossless({ ...photo, data });
  },
});

const turn = (quarters: 1 | 2 | 3): Transform => ({
  name: `rotate ${90 * quarters}`,
  apply: (photo) =>
    open(photo)
      .rotate(90 * quarters)
      .png({ compressionLevel: 1 })
      .toBuffer(),
  move: ([x, y], { width, height }) =>
    quarters === 1 ? [height - y, x] : quarters === 2 ? [width - x, height - y] : [y, width - x],
});

/** Turned by some degrees and cut to the part that is still picture. */
const tilt = (degrees: number): Transform => {
  const rad = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(rad), Math.abs(Math.sin(rad))];
  const inner = ({ width: w, height: h }: Pixels) => {
    // The largest upright rectangle of the same aspect inside the turned one.
    const k = Math.min(w / (w * c + h * s), h / (w * s + h * c));
    return { width: Math.floor(w * k) - 2, height: Math.floor(h * k) - 2 };
  };
  return {
    name: `tilt ${degrees}`,
    async apply(photo) {
      const { data, info } = await open(photo).rotate(degrees, { background: '#808080' }).raw().toBuffer({
        resolveWithObject: true,
      });
      const size = inner(photo);
      return sharp(data, { raw: { width: info.width, height: info.height, channels: 3 } })
        .extract({
          left: Math.floor((info.width - size.width) / 2),
          top: Math.floor((info.height - size.height) / 2),
          ...size,
        })
        .png({ compressionLevel: 1 })
        .toBuffer();
    },
    move([x, y], photo) {
      const size = inner(photo);
      const [dx, dy] = [x - photo.width / 2, y - photo.height / 2];
      const at: Point = [
        size.width / 2 + dx * Math.cos(rad) - dy * Math.sin(rad),
        size.height / 2 + dx * Math.sin(rad) + dy * Math.cos(rad),
      ];
      return at[0] < 0 || at[1] < 0 || at[0] >= size.width || at[1] >= size.height ? null : at;
    },
  };
};

const crop = (name: string, left: number, top: number, share: number): Transform => {
  const box = ({ width, height }: Pixels) => ({
    left: Math.round(left * width),
    top: Math.round(top * height),
    width: Math.round(share * width),
    height: Math.round(share * height),
  });
  return {
    name,
    apply: (photo) => open(photo).extract(box(photo)).png({ compressionLevel: 1 }).toBuffer(),
    move([x, y], photo) {
      const b = box(photo);
      const at: Point = [x - b.left, y - b.top];
      return at[0] < 0 || at[1] < 0 || at[0] >= b.width || at[1] >= b.height ? null : at;
    },
  };
};

const rescale = (factor: number): Transform => ({
  name: `rescale ${factor}`,
  apply: (photo) =>
    open(photo)
      .resize(Math.round(photo.width * factor), Math.round(photo.height * factor), { fit: 'fill', kernel: 'cubic' })
      .png({ compressionLevel: 1 })
      .toBuffer(),
  move: ([x, y]) => [x * factor, y * factor],
});

const blur = (sigma: number): Transform => ({
  name: `blur ${sigma} px`,
  move: stay,
  apply: (photo) => open(photo).blur(sigma).png({ compressionLevel: 1 }).toBuffer(),
});

const [warm, cool] = [gainsBetween(5000, 3500), gainsBetween(5000, 6500)];

/** All changes that are tried. "Unchanged" is the null: what it shows is noise of the method, not of the program. */
export const TRANSFORMS: readonly Transform[] = [
  { name: 'unchanged', move: stay, apply: lossless },
  turn(1),
  turn(2),
  turn(3),
  tilt(10),
  {
    name: 'mirror',
    apply: (photo) => open(photo).flop().png({ compressionLevel: 1 }).toBuffer(),
    move: ([x, y], { width }) => [width - x, y],
  },
  crop('crop middle 80 %', 0.1, 0.1, 0.8),
  crop('crop corner 60 %', 0, 0, 0.6),
  rescale(0.5),
  rescale(0.75),
  rescale(1.5),
  { name: 'JPEG quality 60', move: stay, apply: (p) => open(p).jpeg({ quality: 60 }).toBuffer() },
  { name: 'JPEG quality 25', move: stay, apply: (p) => open(p).jpeg({ quality: 25 }).toBuffer() },
  { name: 'WebP quality 50', move: stay, apply: (p) => open(p).webp({ quality: 50, effort: 0 }).toBuffer() },
  gain('exposure +1 stop', [2, 2, 2]),
  gain('exposure -1 stop', [0.5, 0.5, 0.5]),
  gain('light -1500 K', warm),
  gain('light +1500 K', cool),
  blur(1),
  blur(2),
  noise(8),
  noise(16),
];
