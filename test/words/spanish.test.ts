import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { say } from '../../src/words';
import { EN } from '../../src/words/en';
import { ES } from '../../src/words/es';

const blanks = (sentence: string): string[] =>
  [...new Set([...sentence.matchAll(/\{(\w+)/g)].map((m) => m[1] as string))].sort();

/** Codes whose sentence is the same in both languages: names, units, keys of a meter. */
const SAME = Object.keys(EN).filter((code) => EN[code] === ES[code] && !code.startsWith('command.'));

/** Words that are spelled alike in both languages, names of places and of standards. */
const ALIKE = /\b(cable|color|conductor|control|local|nominal|China|India|Hueproof|IEC|ANSI|CSA|SHA|CAT)\b/gi;

/** Nothing in it to translate: blanks, signs, units and marks of one or two letters, words spelled alike. */
const wordless = (sentence: string): boolean =>
  !/[a-z]{3,}/i.test(sentence.replaceAll(/\{[^}]*\}/g, '').replaceAll(ALIKE, ''));

describe('Spanish', () => {
  it('has every English code and no other (the compiler says so too)', () => {
    expect(Object.keys(ES).sort()).toEqual(Object.keys(EN).sort());
  });

  it('fills the same blanks as English', () => {
    for (const [code, english] of Object.entries(EN)) {
      expect({ code, blanks: blanks(ES[code] ?? '') }).toEqual({ code, blanks: blanks(english) });
    }
  });

  it('leaves no sentence in English', () => {
    expect(SAME.filter((code) => !wordless(EN[code] ?? ''))).toEqual([]);
    expect(wordless('Save {name} as {kind}')).toBe(false);
  });

  it('never calls a conductor safe, dead or identified', () => {
    const forbidden = (s: string): boolean => /\best(á|án) (seguro|muerto|identificado|desenergizado)/i.test(s);
    expect(Object.values(ES).filter(forbidden)).toEqual([]);
    expect(forbidden('El conductor está muerto.')).toBe(true);
  });

  it('uses the trade terms of the Spanish edition of the code (NFPA 70 in Spanish, from memory)', () => {
    expect(ES['identify.role.grounded-conductor']).toContain('puesto a tierra');
    expect(ES['identify.role.equipment-grounding-conductor']).toBe('conductor de puesta a tierra de equipos');
    expect(ES['identify.system.us-240-120-high-leg']).toContain('delta');
    // "Neutral", "breaker" and "tape" keep one word each, all over the catalogue.
    for (const [code, sentence] of Object.entries(ES)) {
      if (code.startsWith('command.')) continue;
      expect({ code, sentence }).not.toEqual({
        code,
        sentence: expect.stringMatching(/\b(breaker|disyuntor|voltaje|cable a tierra)\b/i),
      });
    }
  });

  it('has words for every practice scene, English ones as in the manifest', () => {
    const manifest = JSON.parse(readFileSync('sample-images/manifest.json', 'utf8')) as {
      scenes: { id: string; title: string; description: string }[];
    };
    expect(manifest.scenes.length).toBeGreaterThan(5);
    for (const { id, title, description } of manifest.scenes) {
      expect(EN[`screen.sample.${id}.title`]).toBe(title);
      expect(EN[`screen.sample.${id}.text`]).toBe(description);
    }
  });
});

describe('numbers and counts in a sentence', () => {
  const ask = { code: 'verify.question.negative', values: { value: -12.5 } };

  it('get the decimal sign of the language, or the one asked for', () => {
    expect(say(ask, 'en')).toContain('-12.5 V');
    expect(say(ask, 'es')).toContain('-12,5 V');
    // Mexico writes a point (CLDR es-MX).
    expect(say(ask, 'es', '.')).toContain('-12.5 V');
    expect(say({ code: 'verify.aside.superseded', values: { value: '208.4' } }, 'es')).toContain('208,4');
  });

  it('leave names and codes alone (twin)', () => {
    expect(say({ code: 'screen.record.photo', values: { number: 1, name: 'a.1.5.jpg' } }, 'es')).toContain('a.1.5.jpg');
  });

  it('choose the word for one and for more', () => {
    const job = (photos: number) => ({ code: 'screen.start.job', values: { photos, when: '-' } });
    expect(say(job(1))).toBe('1 photo, -');
    expect(say(job(2))).toBe('2 photos, -');
    expect(say(job(1), 'es')).toBe('1 foto, -');
    expect(say(job(0), 'es')).toBe('0 fotos, -');
  });

  it('translate values that are codes', () => {
    const text = {
      code: 'identify.finding.legend-white',
      values: { color: 'color.name.gray', role: 'identify.role.phase-A' },
    };
    expect(say(text, 'es')).toBe('La leyenda da gris a fase A; blanco y gris son para conductores puestos a tierra.');
  });
});
