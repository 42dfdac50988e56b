import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { JobPhoto } from '../flow';
import type { WorkerAnswer } from './turnover-worker';

/** A photo already read: what a run that was stopped goes on from. */
export interface KeptPart {
  readonly photo: JobPhoto;
  readonly tag: string | null;
}

/** Parts of a turnover on disk, one a photo, under the photo's hash. A part is there whole or not at all. */
export class PartStore {
  private constructor(private readonly folder: string) {}

  static async open(folder: string): Promise<PartStore> {
    await mkdir(folder, { recursive: true });
    return new PartStore(folder);
  }

  async read(sha256: string): Promise<KeptPart | null> {
    try {
      return JSON.parse(await readFile(this.path(sha256, 'json'), 'utf8')) as KeptPart;
    } catch {
      // Not there, or cut off by a crash of the machine: it is read again.
      return null;
    }
  }

  async write(sha256: string, name: string, answer: Extract<WorkerAnswer, { kind: 'read' }>): Promise<void> {
    const findings = { ...answer.findings, photo: { ...answer.findings.photo, name } };
    const photo: JobPhoto = { id: photoId(sha256), findings, words: {}, readings: [], note: '' };
    await this.put(sha256, 'jpg', Buffer.from(answer.picture, 'base64'));
    // Last: its presence says that the part is whole.
    await this.put(sha256, 'json', JSON.stringify({ photo, tag: answer.tag } satisfies KeptPart));
  }

  picture(sha256: string): Promise<Uint8Array> {
    return readFile(this.path(sha256, 'jpg'));
  }

  private async put(sha256: string, kind: string, data: string | Buffer): Promise<void> {
    const path = this.path(sha256, kind);
    await writeFile(`${path}.new`, data);
    await rename(`${path}.new`, path);
  }

  private path(sha256: string, kind: string): string {
    return join(this.folder, `${sha256}.${kind}`);
  }
}

/** The same photo has the same id in every run, so that parts made apart fit together. */
export const photoId = (sha256: string): string => `p-${sha256.slice(0, 20)}`;
