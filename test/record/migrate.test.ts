import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CURRENT_SCHEMA, importJob } from '../../src/record';

/** Written by the versions whose jobs were of these schemas; never to be edited. */
const KEPT = [1, 2].map((schema) => ({
  schema,
  text: readFileSync(new URL(`fixtures/job-schema-${schema}.json`, import.meta.url), 'utf8'),
}));

describe.each(KEPT)('an export of layout $schema', ({ schema, text }) => {
  it('comes in whole, with its log unbroken and the change of layout in it', async () => {
    const { job, log, photos } = await importJob(text);
    expect(CURRENT_SCHEMA).toBe(3);
    expect(job).toMatchObject({ id: `kept-${schema}`, schema: 3, title: 'Invented gutter' });
    expect(job.photos[0]?.readings[0]?.value).toBe(277.1);
    expect(log[0]?.changes[0]?.code).toBe('record.change.created');
    expect(log.at(-1)?.changes[0]?.code).toBe('record.change.migrated');
    expect(photos.get('p1')?.size).toBe(35);
  });

  it('is refused when one figure in it was changed (twin)', async () => {
    await expect(importJob(text.replace('277.1', '277.2'))).rejects.toMatchObject({ kind: 'record changed' });
  });
});

describe('an export of layout 2', () => {
  it('keeps its turnover and its meter', async () => {
    const { job } = await importJob(KEPT[1]!.text);
    expect(job.turnover?.entries['l1:phase A']?.torque).toMatchObject({ value: 4.1, tool: 'T-9' });
    expect(job.meter?.category).toBe('III');
    expect(job.same).toBeUndefined();
  });
});
