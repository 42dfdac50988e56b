import { openInspector } from '../inspect/inspect.node.ts';
import { runInspect } from './run-inspect';

// A reader that stops early (head, less) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

const code = await runInspect(process.argv.slice(2), openInspector, {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
});
// Not process.exit: lines still on their way through a pipe would be lost.
process.exitCode = code;
