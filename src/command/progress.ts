import { message } from '../flow';
import { say } from '../words';

const WIDTH = 30;

/** A bar that is redrawn in place on a terminal and printed as a line now and then elsewhere. */
export function progressBar(err: (text: string) => void, onTerminal: boolean, now: () => number) {
  const start = now();
  let shown = -1;
  return (done: number, of: number): void => {
    const share = of === 0 ? 1 : done / of;
    const tenth = Math.floor(share * 10);
    if (!onTerminal && tenth === shown && done < of) return;
    shown = tenth;
    const seconds = (now() - start) / 1000;
    const left = done === 0 ? 0 : Math.round((seconds / done) * (of - done));
    const bar = '#'.repeat(Math.round(share * WIDTH)).padEnd(WIDTH, '.');
    const line = say(message('command.progress', { bar, done, of, seconds: Math.round(seconds), left }));
    err(onTerminal ? `\r${line}${done >= of ? '\n' : ''}` : `${line}\n`);
  };
}
