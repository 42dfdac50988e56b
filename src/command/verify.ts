import { runVerify } from './run-verify';

process.exitCode = await runVerify(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
});
