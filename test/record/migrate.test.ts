import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CURRENT_SCHEMA, importJob } from '../../src/record';

/** Written by the version whose jobs were of schema 1; never to be edited. */
const KEPT = readFileSync(new URL('fixtures/job-schema-1.json', import.meta.url), 'utf8');

describe('an export of an older layout', () => {
  it('comes in whole, with its log unbroken and the change of layout in it', async () => {
    const { job, log, photos } = await importJob(KEPT);
    expect(CURRENT_SCHEMA).toBe(2);
    expect(job).toMatchObject({ id: 'kept-1', schema: 2, title: 'Invented gutter' });
    expect(job.photos[0]?.readings[0]?.value).toBe(277.1);
    expect(log.map((entry) => entry.changes[0]?.code)).toEqual([
      'record.change.created',
      'record.change.photo-added',
      'record.change.migrated',
    ]);
    expect(photos.get('p1')?.size).toBe(35);
  });

  it('is refused when one figure in it was changed (twin)', async () => {
    await expect(importJob(KEPT.replace('277.1', '277.2'))).rejects.toMatchObject({ kind: 'record changed' });
  });
});
