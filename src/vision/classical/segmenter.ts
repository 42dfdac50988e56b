import { type Raster, throwIfCancelled } from '../../flow';
import type { Cv } from '../cv/facade';
import { loadCv } from '../cv/load';
import type { Segmentation, Segmenter } from '../segmenter';
import { strokeCoherence } from './coherence';
import { type Level, makeLevel } from './level';
import { findStrokes, type StrokeField } from './strokes';

/** Widths from 2.5 px to 96 px of the raster: each level finds 2.5 to 12 px of its own. */
const SCALES = [1, 0.5, 0.25, 0.125] as const;
/** A wide stroke wins over narrow ones inside it (highlight lines, rims) unless they are clearly better. */
const WIDER_BONUS = 1.12;

/**
 * Finds conductors as long, evenly colored strips between parallel edges, at four scales. Knows nothing of what
 * conductors look like otherwise, so ducts, rods and printed lines fool it: the network's baseline and fallback.
 */
export function createClassicalSegmenter(): Segmenter {
  return {
    name: 'classical 1',
    async segment(raster, signal, onProgress) {
      const { cv } = await loadCv();
      const planes = emptySegmentation(raster);
      for (const [step, scale] of SCALES.entries()) {
        throwIfCancelled(signal);
        addLevel(planes, cv, raster, scale);
        onProgress?.((step + 1) / SCALES.length);
      }
      return planes;
    },
    dispose() {},
  };
}

function emptySegmentation(raster: Raster): Segmentation {
  const pixels = raster.width * raster.height;
  return {
    width: raster.width,
    height: raster.height,
    by: 'classical 1',
    learned: false,
    wire: new Float32Array(pixels),
    edge: new Float32Array(pixels),
    direction: new Float32Array(pixels * 2),
    halfWidth: new Float32Array(pixels),
  };
}

function addLevel(into: Segmentation, cv: Cv, raster: Raster, scale: number): void {
  const level = makeLevel(cv, raster, scale);
  const field = findStrokes(level);
  const probability = strokeCoherence(level, field);
  const { width, height } = into;
  for (let y = 0; y < height; y++) {
    const ly = Math.min(level.height - 1, Math.floor(y * (level.height / height)));
    for (let x = 0; x < width; x++) {
      const lx = Math.min(level.width - 1, Math.floor(x * (level.width / width)));
      const from = ly * level.width + lx;
      const to = y * width + x;
      if (probability[from]! * WIDER_BONUS > into.wire[to]!) take(into, to, level, field, probability, from);
      if (scale === 1) into.edge[to] = edgeProbability(level, from);
    }
  }
}

function take(into: Segmentation, to: number, level: Level, field: StrokeField, p: Float32Array, from: number): void {
  into.wire[to] = p[from]!;
  into.direction[to * 2] = field.direction[from * 2]!;
  into.direction[to * 2 + 1] = field.direction[from * 2 + 1]!;
  into.halfWidth[to] = field.width[from]! / 2 / level.scale;
}

const edgeProbability = (level: Level, i: number): number =>
  level.edge[i] ? Math.min(1, Math.max(0, (level.strength[i]! - 6) / 18)) : 0;
