import { readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import { schemaFiles } from '../../src/command/schemas-text';
import { exportJob, nextEntry } from '../../src/record';
import { sampleJob } from '../record/sample-job';

const published = (name: string): string =>
  readFileSync(new URL(`../../schemas/${name}.schema.json`, import.meta.url), 'utf8');
const validator = (name: string) => new Ajv2020({ strict: false }).compile(JSON.parse(published(name)) as object);

describe('the published schemas', () => {
  it('are those that the program checks by (npm run schemas)', () => {
    for (const [name, text] of schemaFiles()) expect(published(name.replace('.schema.json', '')), name).toBe(text);
  });

  it('let in what is exported, by a validator of JSON Schema draft 2020-12 that is not ours', async () => {
    const job = await sampleJob();
    const log = [await nextEntry(undefined, job, '2026-03-04T07:00:00Z', [])];
    const file = JSON.parse(JSON.stringify(await exportJob(job, log, new Map(), '2026-03-04T07:00:00Z'))) as {
      job: object;
      log: object[];
    };
    expect(validator('export')(file)).toBe(true);
    expect(validator('job')(file.job)).toBe(true);
    expect(validator('log')(file.log)).toBe(true);
  });

  it('refuse another form (twin)', async () => {
    const job = JSON.parse(JSON.stringify(await sampleJob())) as Record<string, unknown>;
    expect(validator('job')({ ...job, schema: 7 })).toBe(false);
    expect(validator('job')({ ...job, photos: [{}] })).toBe(false);
    expect(validator('log')([{ sequence: 0 }])).toBe(false);
  });
});
