import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import decodeQR from 'qr/decode.js';
import sharp from 'sharp';
import { type Findings, Problem } from '../flow';
import { openInspector } from '../inspect/inspect.node.ts';

/** What the parent asks for, one photo at a time. */
export interface WorkerTask {
  readonly path: string;
}

export type WorkerAnswer =
  | {
      readonly kind: 'read';
      readonly findings: Findings;
      /** Text of the tag in the picture, if there is one. */
      readonly tag: string | null;
      /** Base64 of a small JPEG for the report. */
      readonly picture: string;
    }
  | { readonly kind: 'failed'; readonly problem: string };

/** Longest side of the report's pictures: 150 dots per inch on half a page. */
const PICTURE_SIDE = 900;
/** A tag of 20 mm in a photo of a panel is still some 100 pixels wide at this size. */
const TAG_SIDE = 1600;

async function readTag(bytes: Buffer): Promise<string | null> {
  const image = sharp(bytes, { failOn: 'truncated' })
    .rotate()
    .resize(TAG_SIDE, TAG_SIDE, { fit: 'inside', withoutEnlargement: true });
  const { data, info } = await image.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  try {
    return decodeQR({ width: info.width, height: info.height, data });
  } catch {
    // The library throws when there is no code in the picture.
    return null;
  }
}

let inspector = await openInspector();

async function work({ path }: WorkerTask): Promise<WorkerAnswer> {
  try {
    const bytes = await readFile(path);
    const { findings } = await inspector.inspect(bytes, basename(path));
    const small = await sharp(bytes)
      .rotate()
      .resize(PICTURE_SIDE, PICTURE_SIDE, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 72 })
      .toBuffer();
    return { kind: 'read', findings, tag: await readTag(bytes), picture: small.toString('base64') };
  } catch (error) {
    const problem = error instanceof Problem ? error : new Problem('engine failed', undefined, error);
    if (problem.kind === 'engine failed') {
      // A fault may leave the engine's memory in any state.
      inspector.dispose();
      inspector = await openInspector();
    }
    return { kind: 'failed', problem: problem.kind };
  }
}

process.on('message', (task: WorkerTask) => {
  void work(task).then((answer) => process.send?.(answer));
});
process.on('disconnect', () => process.exit(0));
process.send?.({ kind: 'ready' });
