import { join } from 'node:path';

/** Where the scene of the browser tests lies, read already, as the file that an export writes; made anew before each run. */
export const READ_SCENE = join(import.meta.dirname, '../../node_modules/.cache/hueproof/read-scene.json');
