import { createHash } from 'node:crypto';
import { appendFileSync, readFileSync } from 'node:fs';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';

/** What puts a mutant at its place in the random order of a seed: what it is, not how many others there are. */
export function placeOf({ fileName, location: { start, end }, mutatorName, replacement }, seed) {
  const file = fileName.slice(fileName.lastIndexOf('/src/') + 1);
  // With its end: of `a || b || c` every part begins at one place, and each may become `false`.
  const what = [seed, file, start.line, start.column, end.line, end.column, mutatorName, replacement];
  return createHash('sha256').update(JSON.stringify(what)).digest('hex');
}

/** The ids of a random sample: `count` of the mutants from place `from` on, in the order that the seed gives. */
export function chosen(mutants, { seed, from, count }) {
  return mutants
    .map((mutant) => ({ id: mutant.id, at: placeOf(mutant, seed) }))
    .sort((p, q) => (p.at < q.at ? -1 : 1))
    .slice(from, from + count)
    .map(({ id }) => id);
}

/** A checker that passes the mutants of the sample; Stryker leaves all others out of the score as compile errors. */
class SampleChecker {
  #places = new Set();

  async init() {
    this.#places = new Set(JSON.parse(readFileSync(process.env.MUTATE_PLACES, 'utf8')));
  }

  async group(mutants) {
    return [mutants.map(({ id }) => id)];
  }

  async check(mutants) {
    const verdict = (mutant) =>
      this.#places.has(placeOf(mutant, Number(process.env.MUTATE_SEED)))
        ? { status: 'passed' }
        : { status: 'compileError', reason: 'not in the sample' };
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, verdict(mutant)]));
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
