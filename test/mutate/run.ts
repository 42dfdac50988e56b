import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { mutantsOf, rangeOf } from './list';
import { chosen, placeOf } from './sample.mjs';
import { scoreOf } from './score';

/** npm run mutate -- ROOM: the share of a random sample of small faults in src/ROOM that its tests notice. */
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '150' },
    from: { type: 'string', default: '0' },
    seed: { type: 'string', default: '1' },
    files: { type: 'string', default: '' },
    jobs: { type: 'string', default: '1' },
    save: { type: 'string' },
    minutes: { type: 'string', default: '60' },
  },
});
const room = positionals[0] ?? 'color';
const folder = mkdtempSync(join(tmpdir(), 'mutate-'));
const lines = join(folder, 'mutants.jsonl');
writeFileSync(lines, '');
const seed = Number(values.seed);
const possible = await mutantsOf(`src/${room}`, values.files);
const ids = new Set(chosen(possible, { seed, from: Number(values.from), count: Number(values.count) }));
const sample = possible.filter(({ id }) => ids.has(id));
const places = join(folder, 'places.json');
writeFileSync(places, JSON.stringify(sample.map((mutant) => placeOf(mutant, seed))));
const config = join(folder, 'stryker.json');
writeFileSync(
  config,
  JSON.stringify({
    // Only where the sample lies: a switch and a counter at every other place would slow the tests many times over.
    mutate: [...new Set(sample.map(rangeOf))],
    plugins: ['@stryker-mutator/vitest-runner', './test/mutate/sample.mjs'],
    checkers: ['sample'],
    testRunner: 'vitest',
    vitest: { configFile: 'test/mutate/vitest.config.ts', related: false },
    // Every test, for every mutant. By coverage the score was too low by a tenth and more: what is remembered from one test
    // to the next, or worked out while a test file loads, is put down to no test or to the first alone.
    coverageAnalysis: 'off',
    // What modules remember (supplies and tables already built) outlives a mutant in its process: the next one would find
    // what the one before made, and be told by it or hidden by it.
    maxTestRunnerReuse: 1,
    // Of test runners. The checker is one process of its own and asleep while tests run; one dry run serves all.
    concurrency: Number(values.jobs),
    reporters: ['lines'],
    tempDirName: 'coverage/mutate',
    cleanTempDir: 'always',
    ignorePatterns: ['dist', 'models', 'public', 'test/browser', 'test-results', 'sample-images'],
    // TypeScript 7 has no JavaScript API for Stryker to read a tsconfig with; no file, no need of it.
    tsconfigFile: 'none.json',
    timeoutMS: 20_000,
    // Every test once, with a switch at each mutant's place: over five minutes on a slow machine.
    dryRunTimeoutMinutes: 20,
    // The dry run has the machine to itself; runners beside each other are slower, which must not look like a fault found.
    timeoutFactor: Number(values.jobs) > 1 ? 4 : 1.5,
    warnings: { slow: false },
  }),
);
const { status, error } = spawnSync(
  process.execPath,
  ['node_modules/@stryker-mutator/core/bin/stryker.js', 'run', config],
  {
    stdio: 'inherit',
    timeout: Number(values.minutes) * 60_000,
    env: {
      ...process.env,
      MUTATE_ROOM: room,
      MUTATE_SEED: values.seed,
      MUTATE_PLACES: places,
      MUTATE_LINES: lines,
    },
  },
);
// Ended for its time: what was tested until then counts.
const late = error !== undefined;
if (!late && status !== 0) process.exit(status ?? 1);

interface Mutant {
  readonly fileName: string;
  readonly status: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number; readonly column: number } };
}
const all = readFileSync(lines, 'utf8')
  .split('\n')
  .flatMap((line) => (line === '' ? [] : [JSON.parse(line) as Mutant]))
  .map((mutant) => {
    const file = mutant.fileName.slice(mutant.fileName.lastIndexOf('src/'));
    const source = readFileSync(file, 'utf8').split('\n');
    return { ...mutant, file, line: source[mutant.location.start.line - 1]!.trim() };
  });
rmSync(folder, { recursive: true });
const of = (...statuses: string[]) => all.filter((mutant) => statuses.includes(mutant.status));
for (const { status: what, file, line, mutatorName, replacement, location } of of('Survived', 'NoCoverage')) {
  console.log(`${what} ${file}:${location.start.line}:${location.start.column} ${mutatorName}\n  ${line}`);
  console.log(`  -> ${(replacement ?? '').replaceAll(/\s+/g, ' ').slice(0, 160)}`);
}
if (values.save)
  for (const one of of('Survived', 'NoCoverage', 'Killed', 'Timeout'))
    appendFileSync(values.save, `${JSON.stringify({ room, seed: values.seed, ...one })}\n`);
const tally = {
  killed: of('Killed', 'Timeout').length,
  survived: of('Survived').length,
  uncovered: of('NoCoverage').length,
};
const { share, low, high } = scoreOf(tally);
const percent = (p: number): string => `${(100 * p).toFixed(1)} %`;
console.log(
  `${room}, seed ${values.seed}: ${tally.killed} killed (${of('Timeout').length} by time), ${tally.survived} survived, ` +
    `${tally.uncovered} not covered: ${percent(share)}, 95 % interval ${percent(low)} to ${percent(high)}` +
    (late ? '; ended for its time, the last files are missing' : ''),
);
