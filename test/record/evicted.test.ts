import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { importJob, openJobStore } from '../../src/record';
import { sampleJob } from './sample-job';

it('a job gets out as a file when the storage behind it has gone, and that file imports', async () => {
  const store = await openJobStore({ name: 'evicted' });
  const job = await sampleJob();
  await store.save(job);
  // What a browser does that throws the storage away: the connection is closed under the page.
  store.close();
  const changed = { ...job, title: 'Written after the loss' };
  await expect(store.save(changed)).rejects.toMatchObject({ kind: 'storage unavailable' });
  const text = await (await store.exportJson(changed)).text();
  const { job: back, log } = await importJob(text);
  expect(back.title).toBe('Written after the loss');
  expect(log).toHaveLength(1);
});
