import { type ChildProcess, fork } from 'node:child_process';
import type { WorkerAnswer, WorkerTask } from './turnover-worker';

const WORKER = new URL('turnover-worker.ts', import.meta.url);

/** A worker that ends without a word (killed, out of memory) costs its photo one more try, and no more. */
const TRIES = 2;

/**
 * Reads photos in `jobs` processes, each with an engine of its own. `done` is awaited before the same process gets
 * its next photo, so that no more than `jobs` results stand in memory.
 */
export async function readInPool(
  paths: readonly string[],
  jobs: number,
  done: (path: string, answer: WorkerAnswer) => Promise<void>,
): Promise<void> {
  const waiting = [...paths];
  const lane = async (): Promise<void> => {
    let child: ChildProcess | null = null;
    try {
      for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
        let answer: WorkerAnswer | null = null;
        for (let attempt = 0; attempt < TRIES && !answer; attempt++) {
          child ??= await start();
          answer = child && (await ask(child, { path }));
          if (!answer) child = null;
        }
        await done(path, answer ?? { kind: 'failed', problem: 'engine failed' });
      }
    } finally {
      child?.disconnect();
    }
  };
  await Promise.all(Array.from({ length: Math.min(jobs, paths.length) }, lane));
}

/** The next message of a process; null when it ends instead. */
function nextMessage<T>(child: ChildProcess): Promise<T | null> {
  return new Promise((resolve) => {
    const onMessage = (value: unknown): void => {
      child.off('exit', onExit);
      resolve(value as T);
    };
    const onExit = (): void => {
      child.off('message', onMessage);
      resolve(null);
    };
    child.once('message', onMessage);
    child.once('exit', onExit);
  });
}

async function start(): Promise<ChildProcess | null> {
  const child = fork(WORKER, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  return (await nextMessage(child)) ? child : null;
}

function ask(child: ChildProcess, task: WorkerTask): Promise<WorkerAnswer | null> {
  const answer = nextMessage<WorkerAnswer>(child);
  child.send(task);
  return answer;
}
