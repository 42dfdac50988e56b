import { parseInspectArguments } from '../../../../src/command/arguments';
import { between, pick } from '../../random';
import { type Json, jsonOf, must, outcome, type Target } from '../target';

const WORDS = [
  '--at',
  '--json',
  '--points',
  '--help',
  '-h',
  '--',
  '-',
  '',
  '1,2',
  '-3.5,1e9',
  'NaN,1',
  'a.jpg',
  '--x',
  '\u0000',
];

/** Any words on the command line: read, or refused as a bad argument. */
export const words: Target = {
  name: 'command words',
  share: 3,
  make: (random) => Array.from({ length: between(random, 0, 8) }, () => pick(random, WORDS)) as Json,
  async check(input) {
    const result = await outcome(() => parseInspectArguments(jsonOf(input) as readonly string[]), ['bad argument']);
    if ('value' in result)
      must(
        result.value.at.every((p) => p.every(Number.isFinite)),
        'a point that is no number',
      );
  },
};
