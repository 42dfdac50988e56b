import { PDFDocument, type PDFFont, type PDFPage, rgb, StandardFonts } from '@cantoo/pdf-lib';
import { printable, wrapped } from './text';

/** US Letter in points; the margins leave room for A4 printers. */
const WIDTH = 612;
const HEIGHT = 792;
const MARGIN = 48;
const FOOT = 40;

/** Lines of a table row that fit on any page below its head. */
const ROW_LINES = 40;

const INK = rgb(0, 0, 0);
const RULE = rgb(0.55, 0.55, 0.55);

/** Width of the printed area, points. */
export const COLUMN = WIDTH - 2 * MARGIN;

export interface Cell {
  readonly text: string;
  readonly strong?: boolean;
}

/** A document that is written from top to bottom and turns the page by itself. Black on white only. */
export class Paper {
  private page: PDFPage;
  private y = HEIGHT - MARGIN;

  private constructor(
    readonly doc: PDFDocument,
    private readonly plain: PDFFont,
    private readonly strong: PDFFont,
  ) {
    this.page = doc.addPage([WIDTH, HEIGHT]);
  }

  static async open(title: string, author: string, at: Date, locale: string): Promise<Paper> {
    const doc = await PDFDocument.create();
    doc.setTitle(title, { showInWindowTitleBar: true });
    doc.setAuthor(author);
    doc.setCreator('Hueproof');
    doc.setProducer('Hueproof');
    doc.setCreationDate(at);
    doc.setModificationDate(at);
    doc.setLanguage(locale);
    return new Paper(
      doc,
      await doc.embedFont(StandardFonts.Helvetica),
      await doc.embedFont(StandardFonts.HelveticaBold),
    );
  }

  newPage(): void {
    this.page = this.doc.addPage([WIDTH, HEIGHT]);
    this.y = HEIGHT - MARGIN;
  }

  /** Turns the page unless `height` points are left. */
  need(height: number): void {
    if (this.y - height < MARGIN + FOOT) this.newPage();
  }

  gap(points: number): void {
    this.y -= points;
  }

  heading(text: string, size = 14): void {
    this.need(size * 3);
    this.gap(size * 0.6);
    this.text(text, { size, strong: true });
    this.gap(size * 0.3);
  }

  text(text: string, { size = 10, strong = false } = {}): void {
    const font = strong ? this.strong : this.plain;
    for (const line of wrapped(text, font, size, COLUMN)) {
      this.need(size * 1.35);
      this.y -= size * 1.35;
      this.page.drawText(line, { x: MARGIN, y: this.y, size, font, color: INK });
    }
  }

  /** A table with its head repeated on each page. `shares` are widths and add up to 1. */
  table(shares: readonly number[], head: readonly string[], rows: readonly (readonly Cell[])[]): void {
    const titles = head.map((text): Cell => ({ text, strong: true }));
    this.row(shares, titles, false);
    for (const cells of rows) this.row(shares, cells, true, titles);
  }

  private row(shares: readonly number[], cells: readonly Cell[], below: boolean, head?: readonly Cell[]): void {
    const size = 8;
    const step = size * 1.3;
    const columns = cells.map(({ text, strong }, k) => {
      const font = strong ? this.strong : this.plain;
      return { font, lines: wrapped(text, font, size, COLUMN * (shares[k] ?? 0) - 6) };
    });
    const most = Math.max(...columns.map(({ lines }) => lines.length));
    // A cell longer than a page goes on below the next head.
    for (let from = 0; from < most; from += ROW_LINES) {
      const height = Math.min(most - from, ROW_LINES) * step + 5;
      if (this.y - height < MARGIN + FOOT) {
        this.newPage();
        if (head && below) this.row(shares, head, false);
      }
      let x = MARGIN;
      for (const [k, { font, lines }] of columns.entries()) {
        for (const [n, line] of lines.slice(from, from + ROW_LINES).entries())
          this.page.drawText(line, { x: x + 3, y: this.y - 2 - step * (n + 1), size, font, color: INK });
        x += COLUMN * (shares[k] ?? 0);
      }
      this.y -= height;
      const end = { x: WIDTH - MARGIN, y: this.y };
      this.page.drawLine({ start: { x: MARGIN, y: this.y }, end, thickness: below ? 0.4 : 1, color: RULE });
    }
  }

  /** Place for a drawing of this size: its page and lower left corner. */
  place(height: number): { readonly page: PDFPage; readonly x: number; readonly y: number } {
    this.need(height + 6);
    this.y -= height + 6;
    return { page: this.page, x: MARGIN, y: this.y };
  }

  /** Numbers the pages and writes one line at the foot of each. */
  async finish(foot: string, pageOf: (page: number, of: number) => string): Promise<Uint8Array> {
    const pages = this.doc.getPages();
    for (const [k, page] of pages.entries()) {
      const number = printable(pageOf(k + 1, pages.length));
      const size = 8;
      page.drawText(printable(foot), { x: MARGIN, y: MARGIN - 10, size, font: this.plain, color: INK });
      const x = WIDTH - MARGIN - this.plain.widthOfTextAtSize(number, size);
      page.drawText(number, { x, y: MARGIN - 22, size, font: this.plain, color: INK });
    }
    return this.doc.save();
  }

  label(page: PDFPage, text: string, x: number, y: number): void {
    const size = 9;
    const width = this.strong.widthOfTextAtSize(text, size) + 6;
    page.drawRectangle({
      x: x - width / 2,
      y: y - 6,
      width,
      height: 12,
      color: rgb(1, 1, 1),
      borderColor: INK,
      borderWidth: 0.8,
    });
    page.drawText(text, { x: x - width / 2 + 3, y: y - 3.2, size, font: this.strong, color: INK });
  }
}
