import type { PDFFont } from '@cantoo/pdf-lib';

/** Characters of WinAnsi above Latin-1 (PDF 32000-1:2008, annex D.2; from memory): the fonts every reader has. */
const WIN_ANSI = new Set('€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ');

/** Signs that have a plain spelling. */
const PLAIN: Readonly<Record<string, string>> = { Ω: 'ohm', '\t': ' ', '≤': '<=', '≥': '>=', '−': '-', '→': '->' };

/**
 * Text in the characters the report's fonts have. Anything else is spelled by its code point (U+6F22), so that no
 * name turns into another one; control and direction marks go the same way and cannot reorder a line.
 */
export function printable(text: string): string {
  let out = '';
  for (const sign of text.normalize('NFC').replaceAll(/\r\n?|\n/g, ' / ')) {
    const code = sign.codePointAt(0) ?? 0;
    const plain = (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff && code !== 0xad);
    out +=
      plain || WIN_ANSI.has(sign) ? sign : (PLAIN[sign] ?? `(U+${code.toString(16).toUpperCase().padStart(4, '0')})`);
  }
  return out;
}

/** Lines no wider than `width` points; a word that is wider by itself is cut. */
export function wrapped(text: string, font: PDFFont, size: number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  const fits = (part: string): boolean => font.widthOfTextAtSize(part, size) <= width;
  for (const word of printable(text).split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = word;
    while (!fits(line) && line.length > 1) {
      let cut = line.length - 1;
      while (cut > 1 && !fits(line.slice(0, cut))) cut = Math.max(1, Math.floor(cut * 0.8));
      lines.push(line.slice(0, cut));
      line = line.slice(cut);
    }
  }
  return [...lines, line];
}
