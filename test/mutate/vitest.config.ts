import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const room = process.env.MUTATE_ROOM ?? 'color';

/** Tests whose hundreds of simulated cases take longer than all others together; they only add to the score. */
const SLOW = ['**/measure/**', '**/sim/**', '**/never-surer.test.ts', '**/survive.test.ts'];

/** Quick files first: the first test that fails ends the run of a mutant. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).reverse();
  }
}

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
    sequence: { sequencer: QuickFirst },
    maxWorkers: 1,
  },
});
