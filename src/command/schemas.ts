import { mkdir, writeFile } from 'node:fs/promises';
import { schemaFiles } from './schemas-text';

const FOLDER = new URL('../../schemas/', import.meta.url);

await mkdir(FOLDER, { recursive: true });
for (const [name, text] of schemaFiles()) await writeFile(new URL(name, FOLDER), text);
