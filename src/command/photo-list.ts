import { readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import * as v from 'valibot';
import { type Point, Problem } from '../flow';
import type { InspectArguments } from './arguments';

/** A photo to be read and the points to trace from, full-size pixels. */
export interface PhotoTask {
  readonly path: string;
  readonly at: readonly Point[];
  /** True when somebody asked for points of this photo, even if it has none: the answer then has a list of probes. */
  readonly probed: boolean;
}

const number = v.pipe(v.number(), v.finite());
const IndexSchema = v.looseObject({
  images: v.array(
    v.looseObject({ file: v.string(), points: v.optional(v.array(v.looseObject({ x: number, y: number })), []) }),
  ),
});

async function readIndex(path: string): Promise<v.InferOutput<typeof IndexSchema>> {
  try {
    return v.parse(IndexSchema, JSON.parse(await readFile(path, 'utf8')));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Problem('bad argument', { detail: 'command.bad.index', file: path, why }, error);
  }
}

/**
 * What is to be read, in the order given. With an index and no files, its photos in their order, found beside it;
 * with both, the files named, each with the points the index has for a photo of that name.
 * @throws Problem 'bad argument' when the index cannot be read.
 */
export async function listPhotos({ files, at, points }: InspectArguments): Promise<PhotoTask[]> {
  if (points === undefined) return files.map((path) => ({ path, at, probed: at.length > 0 }));
  const { images } = await readIndex(points);
  const labelled = new Map(images.map((i) => [basename(i.file), i.points.map(({ x, y }): Point => [x, y])]));
  const paths = files.length > 0 ? files : images.map((i) => join(dirname(points), i.file));
  return paths.map((path) => ({ path, at: [...at, ...(labelled.get(basename(path)) ?? [])], probed: true }));
}
