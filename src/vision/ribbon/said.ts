import { SAID } from '../../flow';
import type { Segmentation } from '../segmenter';
import { colorAlong, colorAt } from '../trace/color';
import { type Field, indexAt, inField } from '../trace/field';
import type { TracePoint } from '../trace/follow';

/** Odds beyond these are not told apart: calibrated ones end at 2 %, raw ones are seldom larger. */
const [SUREST, STRONGEST] = [Math.log(0.98 / 0.02), 8];
/** Widths farther apart than this factor (e^1.5) are another thing's. */
const WIDEST = 1.5;

const [EDGE, WAY, WIDTH, TAPE, STRIPE, NAME] = SAID.map((_, k) => k) as [
  number,
  number,
  number,
  number,
  number,
  number,
];

/** Reads what a learned segmentation says of places on one straightened conductor. */
export class SaidReader {
  private readonly planes: Segmentation;
  /** Place among COLOR_NAMES of the name that the segmentation gives the whole conductor. */
  private readonly name: number;
  /** Pixels of what the segmenter looked at, to one of the working image. */
  private readonly scale: readonly [across: number, down: number];

  constructor(
    private readonly field: Field,
    points: readonly TracePoint[],
  ) {
    this.planes = field.planes;
    const names = colorAlong(field, points);
    this.name = names ? names.indexOf(Math.max(...names)) : 0;
    const { marks } = this.planes;
    this.scale = marks ? [marks.width / field.width, marks.height / field.height] : [0, 0];
  }

  /**
   * Writes the planes of SAID at (x, y) of the working image, where the conductor runs along the unit vector (dx, dy) and was traced
   * `halfWidth` pixels wide; all stay as they are outside the image.
   */
  read(x: number, y: number, dx: number, dy: number, halfWidth: number, into: Float32Array, at: number): void {
    const { field, planes } = this;
    if (!inField(field, x, y)) return;
    const i = indexAt(field, x, y);
    into[at + EDGE] = logOdds(planes.edge[i]!);
    const given = planes.halfWidth[i]!;
    if (given > 0) {
      into[at + WAY] = planes.direction[2 * i]! * (dx * dx - dy * dy) + planes.direction[2 * i + 1]! * 2 * dx * dy;
      into[at + WIDTH] = within(Math.log(given / halfWidth), WIDEST);
    }
    const { marks, color } = planes;
    if (marks) {
      const [px, py] = [x * this.scale[0], y * this.scale[1]];
      into[at + TAPE] = within(valueAt(marks.tape, marks.width, marks.height, px, py), STRONGEST);
      into[at + STRIPE] = within(valueAt(marks.stripe, marks.width >> 1, marks.height >> 1, px / 2, py / 2), STRONGEST);
    }
    if (color) into[at + NAME] = within(color[colorAt(field, x, y) + this.name]!, STRONGEST);
  }
}

const within = (v: number, most: number): number => Math.min(most, Math.max(-most, v));

/** Log-odds of a conductor at a place of the working image; outside it there is surely none. */
export const wireOdds = (field: Field, x: number, y: number): number =>
  inField(field, x, y) ? logOdds(field.planes.wire[indexAt(field, x, y)]!) : -SUREST;

const logOdds = (p: number): number => within(Math.log(p / (1 - p)), SUREST);

/** Value of a plane at a place in its pixels, between their centers. */
function valueAt(plane: Float32Array, width: number, height: number, x: number, y: number): number {
  const px = Math.min(width - 1, Math.max(0, x - 0.5));
  const py = Math.min(height - 1, Math.max(0, y - 0.5));
  const x0 = Math.floor(px);
  const fx = px - x0;
  const right = x0 + 1 < width ? 1 : 0;
  const at = Math.floor(py) * width + x0;
  const below = at + (Math.floor(py) + 1 < height ? width : 0);
  const top = plane[at]! * (1 - fx) + plane[at + right]! * fx;
  const bottom = plane[below]! * (1 - fx) + plane[below + right]! * fx;
  const fy = py - Math.floor(py);
  return top * (1 - fy) + bottom * fy;
}
