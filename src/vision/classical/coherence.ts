import type { Level } from './level';
import type { StrokeField } from './strokes';

/** Neighbors join when they run the same way (20 degrees), are as wide (1.5 times) and look alike. */
const SAME_WAY = Math.cos((2 * 20 * Math.PI) / 180);
const SAME_WIDTH = 1.5;
const SAME_LAB = 26;

/**
 * Probability that each stroke pixel belongs to a conductor: strokes that agree with their neighbors are joined,
 * and a joined patch counts for more the longer it is in units of its own width. Edges of lettering, screws and
 * devices pair up too, but not over any length. The weights were set by eye on rendered scenes, not fitted.
 */
export function strokeCoherence(level: Level, field: StrokeField): Float32Array {
  const { width, height, lab } = level;
  const parent = new Int32Array(width * height).fill(-1);
  const find = (i: number): number => {
    let root = i;
    while (parent[root]! >= 0) root = parent[root]!;
    while (parent[i]! >= 0) {
      const next = parent[i]!;
      if (next !== root) parent[i] = root;
      i = next;
    }
    return root;
  };
  const alike = (i: number, j: number): boolean => {
    if (field.score[j]! <= 0) return false;
    const way =
      field.direction[i * 2]! * field.direction[j * 2]! + field.direction[i * 2 + 1]! * field.direction[j * 2 + 1]!;
    if (way < SAME_WAY) return false;
    const ratio = field.width[i]! / field.width[j]!;
    if (ratio > SAME_WIDTH || ratio < 1 / SAME_WIDTH) return false;
    const dl = lab[i * 3]! - lab[j * 3]!;
    const da = 2 * (lab[i * 3 + 1]! - lab[j * 3 + 1]!);
    const db = 2 * (lab[i * 3 + 2]! - lab[j * 3 + 2]!);
    return dl * dl + da * da + db * db < SAME_LAB * SAME_LAB;
  };
  for (let y = 0; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      if (field.score[i]! <= 0) continue;
      for (const j of [i + 1, i + width, i + width - 1, i + width + 1]) {
        if (!alike(i, j)) continue;
        const a = find(i);
        const b = find(j);
        // parent[root] holds minus the size of the patch.
        if (a === b) continue;
        const [big, small] = parent[a]! < parent[b]! ? [a, b] : [b, a];
        parent[big] = parent[big]! + parent[small]!;
        parent[small] = big;
      }
    }
  const probability = new Float32Array(width * height);
  for (let i = 0; i < probability.length; i++) {
    if (field.score[i]! <= 0) continue;
    const area = -parent[find(i)]!;
    const lengthInWidths = area / (field.width[i]! * field.width[i]!);
    const logit = 2.2 * Math.log(lengthInWidths / 5) + 1.6 * Math.log(field.score[i]! / 22);
    probability[i] = 1 / (1 + Math.exp(-logit));
  }
  return probability;
}
