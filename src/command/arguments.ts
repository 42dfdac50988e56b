import { type Point, Problem } from '../flow';

export interface InspectArguments {
  readonly files: readonly string[];
  readonly at: readonly Point[];
  /** Path of an index of labelled photos. */
  readonly points?: string;
  readonly json: boolean;
  readonly help: boolean;
}

const POINT = /^(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)$/;

const bad = (detail: string, values: Readonly<Record<string, string>> = {}): Problem =>
  new Problem('bad argument', { detail, ...values });

/**
 * Arguments of the inspect command. `--at` takes every point that follows it, and may come again; `--` ends options.
 * @throws Problem 'bad argument'; its `detail` is a key of the catalogue whose blanks stand beside it.
 */
export function parseInspectArguments(argv: readonly string[]): InspectArguments {
  const files: string[] = [];
  const at: Point[] = [];
  let points: string | undefined;
  let json = false;
  let help = false;
  let optionsOver = false;
  let inAt = false;
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i] as string;
    const match = inAt ? POINT.exec(word) : null;
    if (match) {
      at.push([Number(match[1]), Number(match[2])]);
      continue;
    }
    if (inAt && argv[i - 1] === '--at') throw bad('command.bad.point', { text: word });
    inAt = false;
    if (optionsOver || !word.startsWith('-')) files.push(word);
    else if (word === '--') optionsOver = true;
    else if (word === '--json') json = true;
    else if (word === '--help' || word === '-h') help = true;
    else if (word === '--at') inAt = true;
    else if (word === '--points') {
      points = argv[++i];
      if (points === undefined) throw bad('command.bad.value', { option: '--points' });
    } else throw bad('command.bad.unknown', { option: word });
  }
  if (inAt && argv.at(-1) === '--at') throw bad('command.bad.value', { option: '--at' });
  if (!help && files.length === 0 && points === undefined) throw bad('command.bad.no-files');
  return { files, at, json, help, ...(points === undefined ? {} : { points }) };
}
