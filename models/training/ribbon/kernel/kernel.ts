// The reader's arithmetic in AssemblyScript with 128-bit SIMD; built into src/color/ribbon/kernel-code.ts by build.mjs.
// It does what the plain functions of src/color/ribbon/reader-plain.ts do, in another order of addition. All addresses are
// in bytes, all values 32-bit floats. `cell` is the bytes of one cell's channels, a multiple of 32: outputs are worked out
// four vectors at a time, and two at the end where the channels are no multiple of sixteen. Grids have a border of zeros,
// which nothing here writes to.

/** Bytes of four vectors. */
const FOUR: usize = 64;

// @ts-ignore: decorator
@inline
function at(p: usize, lane: usize): v128 {
  return v128.load(p + 16 * lane);
}

// @ts-ignore: decorator
@inline
function positive(v: v128): v128 {
  return f32x4.max(v, f32x4.splat(0));
}

// @ts-ignore: decorator
@inline
function add(sum: v128, x: v128, w: v128): v128 {
  return f32x4.add(sum, f32x4.mul(x, w));
}

/**
 * 4 x 4 over all inputs at every second row and column, then the positive part.
 * input: (2 rows + 2) x (2 columns + 2) cells, border one wide. out: grid with a border of `pad` rows and one column.
 * w: [4][4][inputs][channels]. columns is even.
 */
export function halve(input: usize, out: usize, w: usize, bias: usize, rows: i32, columns: i32, pad: i32, cell: usize, inputCell: usize): void {
  const line = usize(2 * columns + 2) * inputCell;
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j += 2) {
      const from = input + usize(2 * i) * line + usize(2 * j) * inputCell;
      const to = out + (usize(i + pad) * usize(columns + 2) + usize(j + 1)) * cell;
      let part: usize = 0;
      for (; part + FOUR <= cell; part += FOUR) {
        let a0 = at(bias + part, 0), a1 = at(bias + part, 1), a2 = at(bias + part, 2), a3 = at(bias + part, 3);
        let b0 = a0, b1 = a1, b2 = a2, b3 = a3;
        let q = w + part;
        for (let di: usize = 0; di < 4; di++) {
          const p = from + di * line;
          for (let k: usize = 0; k < 4 * inputCell; k += 4) {
            const x = v128.load32_splat(p + k), y = v128.load32_splat(p + k + 2 * inputCell);
            const w0 = at(q, 0), w1 = at(q, 1), w2 = at(q, 2), w3 = at(q, 3);
            a0 = add(a0, x, w0); a1 = add(a1, x, w1); a2 = add(a2, x, w2); a3 = add(a3, x, w3);
            b0 = add(b0, y, w0); b1 = add(b1, y, w1); b2 = add(b2, y, w2); b3 = add(b3, y, w3);
            q += cell;
          }
        }
        const p = to + part, r = p + cell;
        v128.store(p, positive(a0)); v128.store(p + 16, positive(a1)); v128.store(p + 32, positive(a2)); v128.store(p + 48, positive(a3));
        v128.store(r, positive(b0)); v128.store(r + 16, positive(b1)); v128.store(r + 32, positive(b2)); v128.store(r + 48, positive(b3));
      }
      if (part < cell) {
        let a0 = at(bias + part, 0), a1 = at(bias + part, 1);
        let b0 = a0, b1 = a1;
        let q = w + part;
        for (let di: usize = 0; di < 4; di++) {
          const p = from + di * line;
          for (let k: usize = 0; k < 4 * inputCell; k += 4) {
            const x = v128.load32_splat(p + k), y = v128.load32_splat(p + k + 2 * inputCell);
            const w0 = at(q, 0), w1 = at(q, 1);
            a0 = add(a0, x, w0); a1 = add(a1, x, w1);
            b0 = add(b0, y, w0); b1 = add(b1, y, w1);
            q += cell;
          }
        }
        const p = to + part, r = p + cell;
        v128.store(p, positive(a0)); v128.store(p + 16, positive(a1));
        v128.store(r, positive(b0)); v128.store(r + 16, positive(b1));
      }
    }
  }
}

/**
 * 5 x 3 on each channel alone, rows `dilation` apart, then the positive part. h: grid with a border of `pad` rows and one
 * column; out: rows x columns cells without one. w: [5][3][channels]. columns is even, pad at least 2 x dilation.
 */
export function depthwise(h: usize, out: usize, w: usize, bias: usize, rows: i32, columns: i32, dilation: i32, pad: i32, cell: usize): void {
  const line = usize(columns + 2) * cell;
  const step = line * usize(dilation);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j += 2) {
      const from = h + usize(i + pad - 2 * dilation) * line + usize(j) * cell;
      const to = out + usize(i * columns + j) * cell;
      for (let lane: usize = 0; lane < cell; lane += 16) {
        let a = v128.load(bias + lane);
        let b = a;
        let p = from + lane;
        let q = w + lane;
        for (let di = 0; di < 5; di++) {
          const w0 = v128.load(q), w1 = v128.load(q + cell), w2 = v128.load(q + 2 * cell);
          const x1 = v128.load(p + cell), x2 = v128.load(p + 2 * cell);
          a = add(add(add(a, v128.load(p), w0), x1, w1), x2, w2);
          b = add(add(add(b, x1, w0), x2, w1), v128.load(p + 3 * cell), w2);
          p += step;
          q += 3 * cell;
        }
        v128.store(to + lane, positive(a));
        v128.store(to + lane + cell, positive(b));
      }
    }
  }
}

/** h += positive part of a mixture of the channels of `from`, rows x columns cells. w: [channels][channels]. columns is even. */
export function mix(h: usize, from: usize, w: usize, bias: usize, rows: i32, columns: i32, pad: i32, cell: usize): void {
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j += 2) {
      const p = from + usize(i * columns + j) * cell;
      const to = h + (usize(i + pad) * usize(columns + 2) + usize(j + 1)) * cell;
      let part: usize = 0;
      for (; part + FOUR <= cell; part += FOUR) {
        let a0 = at(bias + part, 0), a1 = at(bias + part, 1), a2 = at(bias + part, 2), a3 = at(bias + part, 3);
        let b0 = a0, b1 = a1, b2 = a2, b3 = a3;
        let q = w + part;
        for (let k: usize = 0; k < cell; k += 4) {
          const x = v128.load32_splat(p + k), y = v128.load32_splat(p + k + cell);
          const w0 = at(q, 0), w1 = at(q, 1), w2 = at(q, 2), w3 = at(q, 3);
          a0 = add(a0, x, w0); a1 = add(a1, x, w1); a2 = add(a2, x, w2); a3 = add(a3, x, w3);
          b0 = add(b0, y, w0); b1 = add(b1, y, w1); b2 = add(b2, y, w2); b3 = add(b3, y, w3);
          q += cell;
        }
        const d = to + part, e = d + cell;
        v128.store(d, f32x4.add(at(d, 0), positive(a0))); v128.store(d + 16, f32x4.add(at(d, 1), positive(a1))); v128.store(d + 32, f32x4.add(at(d, 2), positive(a2))); v128.store(d + 48, f32x4.add(at(d, 3), positive(a3)));
        v128.store(e, f32x4.add(at(e, 0), positive(b0))); v128.store(e + 16, f32x4.add(at(e, 1), positive(b1))); v128.store(e + 32, f32x4.add(at(e, 2), positive(b2))); v128.store(e + 48, f32x4.add(at(e, 3), positive(b3)));
      }
      if (part < cell) {
        let a0 = at(bias + part, 0), a1 = at(bias + part, 1);
        let b0 = a0, b1 = a1;
        let q = w + part;
        for (let k: usize = 0; k < cell; k += 4) {
          const x = v128.load32_splat(p + k), y = v128.load32_splat(p + k + cell);
          const w0 = at(q, 0), w1 = at(q, 1);
          a0 = add(a0, x, w0); a1 = add(a1, x, w1);
          b0 = add(b0, y, w0); b1 = add(b1, y, w1);
          q += cell;
        }
        const d = to + part, e = d + cell;
        v128.store(d, f32x4.add(at(d, 0), positive(a0))); v128.store(d + 16, f32x4.add(at(d, 1), positive(a1)));
        v128.store(e, f32x4.add(at(e, 0), positive(b0))); v128.store(e + 16, f32x4.add(at(e, 1), positive(b1)));
      }
    }
  }
}

/** Scores of what lies on the four cells that each cell speaks for. h as above; out: rows x columns x 24. w: [channels][24]. */
export function score(h: usize, out: usize, w: usize, bias: usize, rows: i32, columns: i32, pad: i32, cell: usize): void {
  const SCORES: usize = 96;
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++) {
      const p = h + (usize(i + pad) * usize(columns + 2) + usize(j + 1)) * cell;
      const to = out + usize(i * columns + j) * SCORES;
      let a0 = at(bias, 0), a1 = at(bias, 1), a2 = at(bias, 2), a3 = at(bias, 3), a4 = at(bias, 4), a5 = at(bias, 5);
      let q = w;
      for (let k: usize = 0; k < cell; k += 4) {
        const x = v128.load32_splat(p + k);
        a0 = add(a0, x, at(q, 0)); a1 = add(a1, x, at(q, 1)); a2 = add(a2, x, at(q, 2)); a3 = add(a3, x, at(q, 3)); a4 = add(a4, x, at(q, 4)); a5 = add(a5, x, at(q, 5));
        q += SCORES;
      }
      v128.store(to, a0); v128.store(to + 16, a1); v128.store(to + 32, a2); v128.store(to + 48, a3); v128.store(to + 64, a4); v128.store(to + 80, a5);
    }
  }
}
