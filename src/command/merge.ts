import { runMerge } from './run-merge';

process.exitCode = await runMerge(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
});
