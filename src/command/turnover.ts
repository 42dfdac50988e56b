import { availableParallelism } from 'node:os';
import { runTurnover } from './run-turnover';
import { readInPool } from './worker-pool';

process.exitCode = await runTurnover(process.argv.slice(2), {
  read: readInPool,
  cores: availableParallelism(),
  onTerminal: process.stderr.isTTY === true,
  now: () => performance.now(),
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
});
