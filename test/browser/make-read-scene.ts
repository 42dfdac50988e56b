import { createHash } from 'node:crypto';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Job } from '../../src/flow';
import { openInspector } from '../../src/inspect/inspect.node.ts';
import { NOTHING_KNOWN } from '../../src/inspect/stages';
import { exported } from './exported';
import { READ_SCENE } from './read-scene';
import { SCENE } from './scene';

/**
 * Reads the scene of the browser tests in Node and writes the job of it, for tests that begin where the reading ends: in the
 * page it takes half of their time. A program of its own, since Playwright's loader does not get along with the engine's packages.
 */
const AT = '2026-11-25T12:00:00.000Z';
const bytes = await readFile(SCENE.path);
const inspector = await openInspector();
const { findings } = await inspector.inspect(bytes, 'scene.jpg');
inspector.dispose();
const sha256 = createHash('sha256').update(bytes).digest('hex');
const job: Job = {
  id: 'read',
  schema: 3,
  title: 'Invented gutter',
  createdAt: AT,
  by: 'Invented Tester',
  site: NOTHING_KNOWN,
  photos: [
    { id: 'p1', findings: { ...findings, photo: { ...findings.photo, sha256 } }, words: {}, readings: [], note: '' },
  ],
  acknowledgements: [],
  demo: false,
};
await mkdir(dirname(READ_SCENE), { recursive: true });
await writeFile(READ_SCENE, await exported(job, AT, new Map([['p1', bytes]])));
