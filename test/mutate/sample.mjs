import { createHash } from 'node:crypto';
import { appendFileSync } from 'node:fs';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';

/**
 * The ids of a random sample: `count` of the mutants from place `from` on, in an order that the seed gives. The order
 * depends on what each mutant is, not on how many others there are.
 */
export function chosen(mutants, { seed, from, count }) {
  const place = ({ fileName, location, mutatorName, replacement }) => {
    const file = fileName.slice(fileName.lastIndexOf('/src/') + 1);
    const what = [seed, file, location.start.line, location.start.column, mutatorName, replacement];
    return createHash('sha256').update(JSON.stringify(what)).digest('hex');
  };
  return mutants
    .map((mutant) => ({ id: mutant.id, at: place(mutant) }))
    .sort((p, q) => (p.at < q.at ? -1 : 1))
    .slice(from, from + count)
    .map(({ id }) => id);
}

/** A checker that passes the mutants of the sample; Stryker leaves all others out of the score as compile errors. */
class SampleChecker {
  #in = new Set();

  async init() {}

  async group(mutants) {
    const { MUTATE_SEED, MUTATE_FROM, MUTATE_COUNT } = process.env;
    const sample = { seed: Number(MUTATE_SEED), from: Number(MUTATE_FROM), count: Number(MUTATE_COUNT) };
    this.#in = new Set(chosen(mutants, sample));
    return [mutants.map(({ id }) => id)];
  }

  async check(mutants) {
    const verdict = (id) =>
      this.#in.has(id) ? { status: 'passed' } : { status: 'compileError', reason: 'not in the sample' };
    return Object.fromEntries(mutants.map(({ id }) => [id, verdict(id)]));
  }
}

/** Writes down what became of each mutant at once, so that a run that is ended early has told something. */
class LineReporter {
  onMutantTested(mutant) {
    if (mutant.status !== 'CompileError') appendFileSync(process.env.MUTATE_LINES, `${JSON.stringify(mutant)}\n`);
  }
}

export const strykerPlugins = [
  declareClassPlugin(PluginKind.Checker, 'sample', SampleChecker),
  declareClassPlugin(PluginKind.Reporter, 'lines', LineReporter),
];
