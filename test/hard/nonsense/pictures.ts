import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { pixelsOf } from '../images/transforms';
import { normal, seeded } from '../random';

/** A picture that shows no conductor, or none that could be believed; drawn here, so it is nobody's photo. */
export interface Nonsense {
  readonly name: string;
  /** Nothing may be found in it. Elsewhere lines do look like conductors, and only confidence is watched. */
  readonly empty: boolean;
  bytes(): Promise<Uint8Array>;
}

const WIDTH = 1200;
const HEIGHT = 900;

type Paint = (x: number, y: number) => readonly [number, number, number];

async function painted(paint: Paint, width = WIDTH, height = HEIGHT): Promise<Uint8Array> {
  const data = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data.set(paint(x, y), (y * width + x) * 3);
  return sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 90 })
    .toBuffer();
}

const plain = (v: number): Paint => {
  const random = seeded(v + 1);
  return () => {
    const n = Math.min(255, Math.max(0, Math.round(v + normal(random))));
    return [n, n, n];
  };
};

const noise: Paint = (() => {
  const random = seeded(5);
  return () => [Math.floor(256 * random()), Math.floor(256 * random()), Math.floor(256 * random())];
})();

const sample = (file: string): Buffer => readFileSync(new URL(`../../../sample-images/${file}`, import.meta.url));

/** Lines of text as blocks, windows and icons, under the pixel grid of a screen photographed. */
const screen: Paint = (x, y) => {
  const grid = x % 3 === 2 || y % 3 === 2 ? 0.75 : 1;
  const bar = y < 60 ? 70 : 0;
  const text = y % 28 < 12 && (x * 7919 + Math.floor(y / 28) * 104729) % 97 > 40 && x > 80 && x < 900 ? 190 : 0;
  const key = x > 950 && y % 160 > 40 && y % 160 < 120 ? 120 : 0;
  return [
    Math.round(grid * (235 - bar - text)),
    Math.round(grid * (238 - bar - text + key / 8)),
    Math.round(grid * (245 - text - key)),
  ];
};

/** A wiring diagram: thin colored lines at right angles on white paper. */
const svg = (body: string): Promise<Uint8Array> =>
  sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}"><rect width="100%" height="100%" fill="#f7f5ef"/>${body}</svg>`,
    ),
  )
    .jpeg({ quality: 92 })
    .toBuffer();

const diagram = ['#111', '#c22', '#24a', '#1a7f3c', '#888']
  .map(
    (color, k) =>
      `<path d="M100 ${120 + 60 * k}H${600 + 50 * k}V${800 - 20 * k}" stroke="${color}" stroke-width="4" fill="none"/>`,
  )
  .join('');
const boxes = `<rect x="60" y="90" width="120" height="320" fill="none" stroke="#111" stroke-width="3"/><rect x="560" y="700" width="320" height="140" fill="none" stroke="#111" stroke-width="3"/>`;

/** Parallel cylinders edge to edge, each of another color: a wall of wires. */
const COLORS = [
  [30, 30, 32],
  [180, 30, 30],
  [30, 60, 160],
  [225, 225, 220],
  [20, 120, 60],
  [230, 110, 20],
] as const;
const wall: Paint = (x, y) => {
  const at = (x + 0.08 * y) / 18;
  const t = 2 * (at - Math.floor(at)) - 1;
  const shade = 0.35 + 0.65 * Math.sqrt(1 - t * t);
  const [r, g, b] = COLORS[Math.floor(at) % COLORS.length]!;
  return [Math.round(r * shade), Math.round(g * shade), Math.round(b * shade)];
};

/** A scene printed with a dot screen and photographed: it looks like conductors because it shows some. */
async function halftone(): Promise<Uint8Array> {
  const { width, height, data } = await pixelsOf(sample('gutter-208y120.jpg'));
  return painted(
    (x, y) => {
      const k = (y * width + x) * 3;
      const dot = (angle: number): number => {
        const u = x * Math.cos(angle) + y * Math.sin(angle);
        const v = -x * Math.sin(angle) + y * Math.cos(angle);
        return 0.5 + 0.25 * (Math.cos((2 * Math.PI * u) / 6) + Math.cos((2 * Math.PI * v) / 6));
      };
      const ink = (value: number, angle: number): number => (value / 255 > dot(angle) ? 236 : 40);
      return [ink(data[k]!, 0.26), ink(data[k + 1]!, 1.31), ink(data[k + 2]!, 0)];
    },
    width,
    height,
  );
}

export const NONSENSE: readonly Nonsense[] = [
  { name: 'all black', empty: true, bytes: () => painted(plain(2)) },
  { name: 'all white', empty: true, bytes: () => painted(plain(254)) },
  { name: 'plain gray', empty: true, bytes: () => painted(plain(128)) },
  { name: 'noise', empty: true, bytes: () => painted(noise) },
  {
    name: 'color wash',
    empty: true,
    bytes: () => painted((x, y) => [Math.round((255 * x) / WIDTH), Math.round((255 * y) / HEIGHT), 128]),
  },
  { name: 'screen', empty: false, bytes: () => painted(screen) },
  { name: 'wiring diagram', empty: false, bytes: () => svg(diagram + boxes) },
  { name: 'wall of wires', empty: false, bytes: () => painted(wall) },
  { name: 'printed photo', empty: false, bytes: halftone },
  {
    name: 'extreme aspect 16:1',
    empty: false,
    bytes: () =>
      sharp(sample('gutter-208y120.jpg')).extract({ left: 0, top: 400, width: 1200, height: 75 }).jpeg().toBuffer(),
  },
  {
    name: 'squeezed to 1:10',
    empty: false,
    bytes: () => sharp(sample('gutter-208y120.jpg')).resize(160, 1600, { fit: 'fill' }).jpeg().toBuffer(),
  },
];
