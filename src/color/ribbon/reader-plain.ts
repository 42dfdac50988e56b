import {
  type Arithmetic,
  cellAt,
  type Dense,
  FIRST,
  gridSize,
  type NetWeights,
  type Room,
  SCORES,
  TALL,
  WIDE,
} from './reader-net';

/** The arithmetic in plain loops: what the kernel is checked against, and what runs where the kernel may not. */
export function plainArithmetic(w: NetWeights): Arithmetic {
  const { shape } = w;
  const { width, inputs } = shape;
  let rows = 0;
  let columns = 0;
  let room: Room = { input: new Float32Array(), h: new Float32Array(), scores: new Float32Array() };

  /** Adds `count` values of `from`, each times its row of `outputs` weights. */
  const addTo = (
    sum: Float32Array,
    from: Float32Array,
    at: number,
    count: number,
    weight: Float32Array,
    w0: number,
  ) => {
    const outputs = sum.length;
    for (let k = 0, row = w0; k < count; k++, row += outputs) {
      const v = from[at + k]!;
      if (v === 0) continue;
      for (let o = 0; o < outputs; o++) sum[o]! += v * weight[row + o]!;
    }
  };
  const each = (work: (i: number, j: number, at: number) => void): void => {
    for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) work(i, j, cellAt(shape, i, j, columns));
  };
  const depthwise = ({ weight, bias }: Dense, dilation: number): Float32Array => {
    const { h } = room;
    const out = new Float32Array(rows * columns * width);
    const sum = new Float32Array(width);
    each((i, j) => {
      sum.set(bias);
      for (let di = 0, row = 0; di < TALL; di++)
        for (let dj = 0; dj < WIDE; dj++, row += width) {
          const from = cellAt(shape, i + (di - 2) * dilation, j + dj - 1, columns);
          for (let o = 0; o < width; o++) sum[o]! += h[from + o]! * weight[row + o]!;
        }
      for (let o = 0; o < width; o++) out[(i * columns + j) * width + o] = Math.max(0, sum[o]!);
    });
    return out;
  };

  return {
    open(r, c) {
      rows = r;
      columns = c;
      room = {
        input: new Float32Array((2 * r + 2) * (2 * c + 2) * inputs),
        h: new Float32Array(gridSize(shape, r, c)),
        scores: new Float32Array(r * c * SCORES),
      };
      return room;
    },
    halve() {
      const { input, h } = room;
      const line = (2 * columns + 2) * inputs;
      const sum = new Float32Array(width);
      each((i, j, at) => {
        sum.set(w.first.bias);
        for (let di = 0; di < FIRST; di++) {
          const from = (2 * i + di) * line + 2 * j * inputs;
          addTo(sum, input, from, FIRST * inputs, w.first.weight, di * FIRST * inputs * width);
        }
        for (let o = 0; o < width; o++) h[at + o] = Math.max(0, sum[o]!);
      });
    },
    block(block) {
      const { h } = room;
      const next = depthwise(w.depth[block]!, shape.dilations[block]!);
      const { weight, bias } = w.mix[block]!;
      const sum = new Float32Array(width);
      each((i, j, at) => {
        sum.set(bias);
        addTo(sum, next, (i * columns + j) * width, width, weight, 0);
        for (let o = 0; o < width; o++) h[at + o]! += Math.max(0, sum[o]!);
      });
    },
    score() {
      const sum = new Float32Array(SCORES);
      each((i, j, at) => {
        sum.set(w.cells.bias);
        addTo(sum, room.h, at, width, w.cells.weight, 0);
        room.scores.set(sum, (i * columns + j) * SCORES);
      });
    },
  };
}
