import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from '@swc/core';
import { describe, expect, test } from 'vitest';
import { decimalSign, readLanguage } from '../../src/app/services/language';
import { colorWord, roleWord, systemWord } from '../../src/app/text/names';
import { measured, percent } from '../../src/app/text/numbers';
import { sayOf } from '../../src/app/text/say-of';
import { speak } from '../../src/app/text/speech';
import { stageWord } from '../../src/app/text/stage-word';
import { CHECK_CONDITIONS, COLOR_NAMES, ROLES } from '../../src/flow';
import { SYSTEMS } from '../../src/identify';
import { STAGES } from '../../src/inspect';
import { SCREEN_WORDS } from '../../src/words/en/screen';

const APP = join(import.meta.dirname, '../../src/app');
const sources = readdirSync(APP, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => ({ name, text: readFileSync(join(APP, name), 'utf8') }));

/** Attributes that are read out or shown. */
const SPOKEN = new Set([
  'aria-label',
  'aria-description',
  'aria-roledescription',
  'placeholder',
  'alt',
  'title',
  'label',
]);

interface Node {
  readonly type?: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

/** Strings that an expression may become on screen: itself, either side of a choice, the fixed parts of a template. */
function literals(node: Node): string[] {
  const { type, value } = node;
  if (type === 'StringLiteral') return [String(value)];
  if (type === 'TemplateLiteral') return (node.quasis as { cooked: string }[]).map((q) => q.cooked);
  if (type === 'ConditionalExpression') return [node.consequent, node.alternate].filter(isNode).flatMap(literals);
  if (type === 'BinaryExpression') {
    const shown =
      node.operator === '+'
        ? [node.left, node.right]
        : node.operator === '&&' || node.operator === '||' || node.operator === '??'
          ? [node.right]
          : [];
    return shown.filter(isNode).flatMap(literals);
  }
  return type === 'ParenthesisExpression' && isNode(node.expression) ? literals(node.expression) : [];
}

/** Words shown or read out that did not come from the catalogue, anywhere below a node of the syntax tree. */
function spokenBelow(node: Node): string[] {
  const own = ((): string[] => {
    if (node.type === 'JSXText') return [String(node.value)];
    if (node.type === 'JSXElement' || node.type === 'JSXFragment')
      return (node.children as Node[]).flatMap((c) =>
        c.type === 'JSXExpressionContainer' && isNode(c.expression) ? literals(c.expression) : [],
      );
    if (node.type !== 'JSXAttribute' || !isNode(node.name) || !SPOKEN.has(String(node.name.value))) return [];
    const { value } = node;
    if (!isNode(value)) return [];
    return literals(value.type === 'JSXExpressionContainer' && isNode(value.expression) ? value.expression : value);
  })();
  const below = Object.values(node).flatMap((v) => (Array.isArray(v) ? v : [v]).filter(isNode).flatMap(spokenBelow));
  return [...own, ...below].map((text) => text.trim()).filter((text) => /\p{L}{2}/u.test(text));
}

const spoken = (source: string): string[] =>
  spokenBelow(parseSync(source, { syntax: 'typescript', tsx: true }) as unknown as Node);

describe('words', () => {
  test('no component speaks for itself', () => {
    expect(sources.length).toBeGreaterThan(50);
    for (const { name, text } of sources.filter((s) => s.name.endsWith('.tsx')))
      expect({ name, spoken: spoken(text) }).toEqual({ name, spoken: [] });
  });

  test('the check above would notice', () => {
    expect(spoken('<p className="x">Nothing found</p>')).toEqual(['Nothing found']);
    expect(spoken('<button aria-label="Zoom in" />')).toEqual(['Zoom in']);
    expect(spoken("<p>{ok ? 'Fine' : t('screen.x')}</p>")).toEqual(['Fine']);
    // biome-ignore lint/suspicious/noTemplateCurlyInString: it is source text
    expect(spoken('<p>{`Job ${n}`}</p>')).toEqual(['Job']);
    expect(spoken("<p className='note'>{t('screen.x')} · {n}</p>")).toEqual([]);
  });

  test('every sentence of the screens is used', () => {
    const all = sources.map((s) => s.text).join('\n');
    const stems = [...all.matchAll(/`(screen\.[a-z.-]*)\$\{/g)].map((m) => m[1] ?? '');
    const unused = Object.keys(SCREEN_WORDS).filter(
      (code) =>
        !all.includes(`'${code}'`) && !all.includes(`"${code}"`) && !stems.some((stem) => code.startsWith(stem)),
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

  test('the decimal sign is that of the language', () => {
    speak({ locale: 'es', tag: 'es-ES', decimal: ',' });
    expect(measured(12.34)).toBe('12,3');
    expect(colorWord('red')).toBe('rojo');
    speak({ locale: 'en', tag: 'en', decimal: '.' });
    expect(measured(12.34)).toBe('12.3');
  });

  test('a Mexican browser writes a point, a Spanish one a comma (Unicode CLDR)', () => {
    expect(decimalSign('es-MX')).toBe('.');
    expect(decimalSign('es-ES')).toBe(',');
    expect(decimalSign('en-US')).toBe('.');
  });

  test('the first language of the browser that exists here is spoken, else English', () => {
    expect(readLanguage(['fr-CA', 'es-MX', 'en'])).toBe('es');
    expect(readLanguage(['fr-CA'])).toBe('en');
  });
});

describe('conductor ids in messages', () => {
  const labelOf = (id: string): string => ({ x1: '1', x2: '2' })[id] ?? '?';

  test('become the numbers on screen, other values stay', () => {
    const code = 'screen.site.group';
    expect(sayOf({ code, values: { kind: 'x9', labels: 'x1, x2' } }, labelOf)).toBe('x9: 1, 2');
  });
});
