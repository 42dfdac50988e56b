/** A straightened conductor whose cells are of its body (1), of a second color (2), or neither (0). Rows along. */
export interface TwoColorGrid {
  readonly length: number;
  readonly across: number;
  readonly cells: Uint8Array;
  /** Rows to a diameter. */
  readonly perDiameter: number;
}

/**
 * Agreement beyond chance (Cohen's kappa, 1960) of a conductor with its own columns, or with itself some way on, from which
 * on the second color is one pattern. A stripe is extruded: it goes on as it began. Assumed.
 */
const AGREED = 0.45;
/** Half a turn on, a stripe that turns agrees with itself at most this part as well as a whole turn on. Assumed. */
const HALF_WAY = 0.5;
/** Turns and rings are farther apart than this, diameters. Assumed. */
const CLOSEST = 0.5;

/**
 * Whether a second color goes on along the conductor as a stripe does: in the same place of every row, or again and again
 * at the same distance, at least twice. What lies across, a neighbor that comes near, or a line that runs from one conductor
 * onto another does neither.
 */
export function recurs(grid: TwoColorGrid): boolean {
  return steady(grid) || turning(grid);
}

/** Over so many diameters a stripe that runs along keeps its place, though conductors twist when pulled. Assumed. */
const STRAIGHT = 3;

function steady({ length, across, cells, perDiameter }: TwoColorGrid): boolean {
  const rows = Math.max(1, Math.round(STRAIGHT * perDiameter));
  const pieces = Math.max(1, Math.round(length / rows));
  let sum = 0;
  for (let p = 0; p < pieces; p++) {
    const [from, to] = [Math.floor((p * length) / pieces), Math.floor(((p + 1) * length) / pieces)];
    const tally = new Tally();
    for (let j = 0; j < across; j++) {
      const count = [0, 0, 0];
      for (let i = from; i < to; i++) count[cells[i * across + j]!]!++;
      const [, body, second] = count as [number, number, number];
      const model = second > body ? 2 : 1;
      tally.add(model, 1, body);
      tally.add(model, 2, second);
    }
    sum += tally.kappa();
  }
  return sum / pieces >= AGREED;
}

function turning(grid: TwoColorGrid): boolean {
  const least = Math.max(2, Math.round(CLOSEST * grid.perDiameter));
  for (let turn = least; turn <= grid.length / 2; turn++) {
    const agreed = shifted(grid, turn);
    if (agreed >= AGREED && shifted(grid, turn >> 1) <= HALF_WAY * agreed) return true;
  }
  return false;
}

/** Agreement of a grid with itself `rows` on. */
function shifted({ length, across, cells }: TwoColorGrid, rows: number): number {
  const tally = new Tally();
  const off = rows * across;
  for (let k = 0; k + off < length * across; k++) {
    const [here, there] = [cells[k]!, cells[k + off]!];
    if (here && there) tally.add(here, there, 1);
  }
  return tally.kappa();
}

/** Two by two counts of what two say of the same cells. */
class Tally {
  private readonly counts = [0, 0, 0, 0];

  add(one: number, other: number, times: number): void {
    this.counts[2 * (one - 1) + (other - 1)]! += times;
  }

  kappa(): number {
    const [a, b, c, d] = this.counts as [number, number, number, number];
    const n = a + b + c + d;
    if (n === 0) return 0;
    const chance = ((a + b) * (a + c) + (c + d) * (b + d)) / n ** 2;
    return chance < 1 - 1e-9 ? ((a + d) / n - chance) / (1 - chance) : 0;
  }
}
