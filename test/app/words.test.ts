import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { panelRows } from '../../src/app/screens/map/panel-rows';
import { colorWord, roleWord, systemWord } from '../../src/app/text/names';
import { percent } from '../../src/app/text/numbers';
import { sayOf } from '../../src/app/text/say-of';
import { stageWord } from '../../src/app/text/stage-word';
import { CHECK_CONDITIONS, COLOR_NAMES, ROLES } from '../../src/flow';
import { SYSTEMS } from '../../src/identify';
import { STAGES } from '../../src/inspect';
import { SCREEN_WORDS } from '../../src/words/en/screen';

const APP = join(import.meta.dirname, '../../src/app');
const sources = readdirSync(APP, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => ({ name, text: readFileSync(join(APP, name), 'utf8') }));

/** Text between tags or in a spoken attribute that did not come from the catalogue. */
const spoken = (source: string): string[] =>
  [
    ...source.matchAll(/<\/?[a-z][^<>]*>\s*([A-Za-z][^<>{}=;()]*?)\s*<\/?[a-z]/g),
    ...source.matchAll(/\b(?:aria-label|placeholder|alt|title)="([^"]+)"/g),
  ].map((m) => m[1] ?? '');

describe('words', () => {
  test('no component speaks for itself', () => {
    expect(sources.length).toBeGreaterThan(50);
    for (const { name, text } of sources) expect({ name, spoken: spoken(text) }).toEqual({ name, spoken: [] });
  });

  test('the check above would notice', () => {
    expect(spoken('<p className="x">Nothing found</p>')).toEqual(['Nothing found']);
    expect(spoken('<button aria-label="Zoom in" />')).toEqual(['Zoom in']);
  });

  test('every sentence of the screens is used', () => {
    const all = sources.map((s) => s.text).join('\n');
    const stems = [...all.matchAll(/`(screen\.[a-z.-]*)\$\{/g)].map((m) => m[1] ?? '');
    const unused = Object.keys(SCREEN_WORDS).filter(
      (code) => !all.includes(`'${code}'`) && !stems.some((stem) => code.startsWith(stem)),
    );
    expect(unused).toEqual([]);
  });

  test('every color, role, system, stage and condition has its words', () => {
    const said = [
      ...COLOR_NAMES.map(colorWord),
      ...ROLES.map(roleWord),
      roleWord('ground'),
      ...Object.keys(SYSTEMS).map(systemWord),
      ...STAGES.map(stageWord),
    ];
    for (const word of said) expect(word).not.toMatch(/^(color|identify|screen)\./);
    for (const condition of CHECK_CONDITIONS) expect(SCREEN_WORDS).toHaveProperty([`screen.condition.${condition}`]);
    expect(systemWord('no-such-system')).toMatch(/^identify\./);
  });
});

describe('numbers', () => {
  test('color is never certain', () => {
    expect(percent(0.9999)).toBe('> 99 %');
    expect(percent(1)).toBe('> 99 %');
    expect(percent(0.0001)).toBe('< 1 %');
    expect(percent(0.876)).toBe('88 %');
  });
});

describe('conductor ids in messages', () => {
  const labelOf = (id: string): string => ({ x1: '1', x2: '2' })[id] ?? '?';

  test('become the numbers on screen, other values stay', () => {
    const code = 'screen.site.group';
    expect(sayOf({ code, values: { kind: 'x9', labels: 'x1, x2' } }, labelOf)).toBe('x9: 1, 2');
  });
});

describe('panel rows', () => {
  const at = (conductor: string, space: number) => ({ conductor, roles: [], because: [], space });

  test('odd left, even right, rows A, B, C down to the last space in use', () => {
    const rows = panelRows([at('a', 1), at('b', 4), at('c', 4)], 'three-phase');
    expect(rows.map((r) => r.pole)).toEqual(['phase A', 'phase B']);
    expect(rows[0]?.left).toEqual({ space: 1, conductors: ['a'] });
    expect(rows[1]?.right).toEqual({ space: 4, conductors: ['b', 'c'] });
    expect(rows[1]?.left.conductors).toEqual([]);
  });

  test('nothing is drawn while no space is known', () => {
    expect(panelRows([{ conductor: 'a', roles: [], because: [] }], 'three-phase')).toEqual([]);
  });
});
