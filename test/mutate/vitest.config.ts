import { defineConfig } from 'vitest/config';

const room = process.env.MUTATE_ROOM ?? 'color';

/** Tests whose hundreds of simulated cases take longer than all others together; they only add to the score. */
const SLOW = ['**/measure/**', '**/sim/**', '**/never-surer.test.ts', '**/survive.test.ts'];

/** The room's own tests, with a tenth of the random cases. Run by Stryker in its copy of the project. */
export default defineConfig({
  test: {
    include: [`test/${room}/**/*.test.ts`],
    exclude: SLOW,
    env: { FEWER_CASES: '10' },
    deps: { interopDefault: false },
    testTimeout: 60_000,
    // One worker for all files: starting one for each would take longer than its tests.
    isolate: false,
    maxWorkers: 1,
  },
});
