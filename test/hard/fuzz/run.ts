import { fork } from 'node:child_process';
import { appendFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { corpusLine } from './corpus';
import { type Failure, fuzz, LONGEST_MS } from './fuzz';

/**
 * The fuzzer as a command: npm run hard:fuzz -- [--cases N] [--seed N] [--keep FILE]
 * Cases run in a process of their own, so that a crash or a hang is seen and told by its number. --keep adds the
 * input of every failure to a file in the form of corpus.jsonl.
 */
const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    from: { type: 'string', default: '0' },
    keep: { type: 'string' },
    child: { type: 'boolean', default: false },
  },
});
const seed = Number(values.seed);
const end = Number(values.cases);

type Note = { readonly begins: number } | { readonly failures: readonly Failure[] };

function runFrom(from: number): Promise<{ readonly failures: readonly Failure[]; readonly next: number }> {
  return new Promise((resolve) => {
    const child = fork(
      fileURLToPath(import.meta.url),
      ['--child', '--seed', String(seed), '--from', String(from), '--cases', String(end)],
      { execArgv: process.execArgv, serialization: 'advanced' },
    );
    let at = from;
    let timer = setTimeout(() => child.kill('SIGKILL'), 60_000);
    let found: readonly Failure[] = [];
    let finished = false;
    child.on('message', (note: Note) => {
      if ('failures' in note) {
        found = [...found, ...note.failures];
        finished ||= at >= end - 1;
        return;
      }
      at = note.begins;
      clearTimeout(timer);
      timer = setTimeout(() => child.kill('SIGKILL'), LONGEST_MS);
    });
    child.on('exit', (code) => {
      clearTimeout(timer);
      if (finished && code === 0) return resolve({ failures: found, next: end });
      const what = code === null ? `hang or kill: no answer in ${LONGEST_MS} ms` : `the process ended with ${code}`;
      const lost: Failure = { target: 'unknown', seed, case: at, what, input: null };
      resolve({ failures: [...found, lost], next: at + 1 });
    });
  });
}

if (values.child) {
  for (let from = Number(values.from); from < end; from += 200) {
    const failures = await fuzz(seed, from, Math.min(end, from + 200), (begins) => process.send!({ begins }));
    process.send!({ failures });
  }
  process.disconnect();
} else {
  const begun = performance.now();
  const failures: Failure[] = [];
  for (let next = 0; next < end; ) {
    const part = await runFrom(next);
    failures.push(...part.failures);
    next = part.next;
  }
  const seconds = (performance.now() - begun) / 1000;
  const kinds = new Map<string, Failure[]>();
  for (const f of failures) kinds.set(`${f.target}: ${f.what}`, [...(kinds.get(`${f.target}: ${f.what}`) ?? []), f]);
  for (const [kind, all] of kinds) console.log(`${all.length} x ${kind} (case ${all.slice(0, 5).map((f) => f.case)})`);
  if (values.keep) for (const [one] of kinds.values()) if (one) appendFileSync(values.keep, corpusLine(one));
  console.log(
    `${end} cases, seed ${seed}, ${seconds.toFixed(0)} s: ${failures.length} failures of ${kinds.size} kinds`,
  );
  process.exitCode = failures.length > 0 ? 1 : 0;
}
