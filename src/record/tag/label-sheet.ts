import { PDFDocument, rgb, StandardFonts } from '@cantoo/pdf-lib';
import encodeQR from 'qr';
import { printable } from '../report/text';
import { type TagPlace, tagText } from './tag-text';

/** US Letter in points, three labels across and seven down; cut along the lines. */
const PAGE = { width: 612, height: 792 } as const;
const ACROSS = 3;
const DOWN = 7;
const MARGIN = 36;
const CODE = 76;

export interface Label {
  readonly place: TagPlace;
  /** Two short lines beside the code. */
  readonly lines: readonly string[];
}

/** A sheet of labels, one a place, each with its code and the same in words. @returns bytes of the PDF. */
export async function labelSheet(labels: readonly Label[]): Promise<Uint8Array> {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont(StandardFonts.HelveticaBold);
  const width = (PAGE.width - 2 * MARGIN) / ACROSS;
  const height = (PAGE.height - 2 * MARGIN) / DOWN;
  let page = doc.addPage([PAGE.width, PAGE.height]);
  for (const [k, { place, lines }] of labels.entries()) {
    const at = k % (ACROSS * DOWN);
    if (k > 0 && at === 0) page = doc.addPage([PAGE.width, PAGE.height]);
    const x = MARGIN + (at % ACROSS) * width;
    const y = PAGE.height - MARGIN - (Math.floor(at / ACROSS) + 1) * height;
    page.drawRectangle({ x, y, width, height, borderColor: rgb(0.6, 0.6, 0.6), borderWidth: 0.4 });
    const code = encodeQR(tagText(place), 'raw', { ecc: 'medium', border: 2 });
    const cell = CODE / code.length;
    // One path for all dark cells: thousands of small rectangles make a slow page.
    const dark = code.flatMap((row, r) =>
      row.flatMap((on, c) => (on ? [`M${c * cell} ${r * cell}h${cell}v${cell}h${-cell}z`] : [])),
    );
    page.drawSvgPath(dark.join(''), { x: x + 6, y: y + height - 10, color: rgb(0, 0, 0) });
    for (const [n, line] of lines.entries())
      page.drawText(printable(line).slice(0, 18), {
        x: x + CODE + 10,
        y: y + height - 34 - n * 16,
        size: n === 0 ? 13 : 9,
        font,
      });
  }
  return doc.save();
}
