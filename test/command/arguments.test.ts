import { describe, expect, it } from 'vitest';
import { parseInspectArguments as parse } from '../../src/command/arguments';

const detail = (argv: string[]): unknown => {
  try {
    parse(argv);
  } catch (error) {
    return (error as { what: { values: { detail: string } } }).what.values.detail;
  }
  return 'no problem';
};

describe('arguments of inspect', () => {
  it('takes several points after one --at, and --at again', () => {
    expect(parse(['--at', '1,2', '3.5,4', 'a.jpg', '--json', '--at', '5,6', 'b.jpg'])).toEqual({
      files: ['a.jpg', 'b.jpg'],
      at: [
        [1, 2],
        [3.5, 4],
        [5, 6],
      ],
      json: true,
      help: false,
    });
  });

  it('takes files that look like options or points after --', () => {
    expect(parse(['--at', '1,2', '--', '--json', '3,4']).files).toEqual(['--json', '3,4']);
    expect(parse(['3,4']).files).toEqual(['3,4']);
  });

  it('needs no file with an index', () => {
    expect(parse(['--points', 'index.json'])).toMatchObject({ files: [], points: 'index.json' });
  });

  it.each([
    [[], 'command.bad.no-files'],
    [['--at', 'a.jpg'], 'command.bad.point'],
    [['--at', '1;2', 'a.jpg'], 'command.bad.point'],
    [['a.jpg', '--at'], 'command.bad.value'],
    [['--points'], 'command.bad.value'],
    [['--jsn', 'a.jpg'], 'command.bad.unknown'],
  ])('refuses %j', (argv, expected) => {
    expect(detail(argv)).toBe(expected);
  });
});
