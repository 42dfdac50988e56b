import {
  degrees,
  drawImage,
  drawLine,
  drawRectangle,
  drawSvgPath,
  drawText,
  PDFDocument,
  type PDFFont,
  PDFName,
  type PDFOperator,
  type PDFPage,
  rgb,
  StandardFonts,
} from '@cantoo/pdf-lib';
import { PdfStream } from './pdf-stream';
import { printable, wrapped } from './text';

/** US Letter in points; the margins leave room for A4 printers. */
const WIDTH = 612;
const HEIGHT = 792;
const MARGIN = 48;
const FOOT = 40;

/** Lines of a table row that fit on any page below its head. */
const ROW_LINES = 40;

const INK = rgb(0, 0, 0);
const WHITE = rgb(1, 1, 1);
const RULE = rgb(0.55, 0.55, 0.55);
const STRAIGHT = { rotate: degrees(0), xSkew: degrees(0), ySkew: degrees(0) };

/** Names under which every page finds the two fonts. */
const PLAIN = PDFName.of('Plain');
const STRONG = PDFName.of('Strong');

/** Width of the printed area, points. */
export const COLUMN = WIDTH - 2 * MARGIN;

export interface Cell {
  readonly text: string;
  readonly strong?: boolean;
}

/** A place on the current page, points from its lower left corner. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Draws a picture on the current page, in points. */
export type DrawPicture = (at: Spot, width: number, height: number) => void;

/**
 * A document that is written from top to bottom and turns the page by itself. Black on white only. What stands on a
 * page is written out when the page is turned, a picture as soon as it is there: memory does not grow with them.
 */
export class Paper {
  private readonly pages: PDFPage[] = [];
  private drawn: PDFOperator[] = [];
  private y = HEIGHT - MARGIN;

  private constructor(
    private readonly doc: PDFDocument,
    private readonly out: PdfStream,
    private readonly plain: PDFFont,
    private readonly strong: PDFFont,
  ) {
    this.addPage();
  }

  /** @param sink gets the bytes of the PDF; closed by `finish`. */
  static async open(
    sink: WritableStream<Uint8Array<ArrayBuffer>>,
    title: string,
    author: string,
    at: Date,
    locale: string,
  ): Promise<Paper> {
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
      new PdfStream(doc, sink),
      await doc.embedFont(StandardFonts.Helvetica),
      await doc.embedFont(StandardFonts.HelveticaBold),
    );
  }

  async newPage(): Promise<void> {
    await this.putDrawn();
    this.addPage();
  }

  /** Turns the page unless `height` points are left. */
  async need(height: number): Promise<void> {
    if (this.y - height < MARGIN + FOOT) await this.newPage();
  }

  gap(points: number): void {
    this.y -= points;
  }

  async heading(text: string, size = 14): Promise<void> {
    await this.need(size * 3);
    this.gap(size * 0.6);
    await this.text(text, { size, strong: true });
    this.gap(size * 0.3);
  }

  async text(text: string, { size = 10, strong = false } = {}): Promise<void> {
    for (const line of wrapped(text, strong ? this.strong : this.plain, size, COLUMN)) {
      await this.need(size * 1.35);
      this.y -= size * 1.35;
      this.write(line, { x: MARGIN, y: this.y }, size, strong);
    }
  }

  /** A table with its head repeated on each page. `shares` are widths and add up to 1; rows are made one by one. */
  async table(shares: readonly number[], head: readonly string[], rows: Iterable<readonly Cell[]>): Promise<void> {
    const titles = head.map((text): Cell => ({ text, strong: true }));
    await this.row(shares, titles, false);
    for (const cells of rows) await this.row(shares, cells, true, titles);
  }

  private async row(
    shares: readonly number[],
    cells: readonly Cell[],
    below: boolean,
    head?: readonly Cell[],
  ): Promise<void> {
    const size = 8;
    const step = size * 1.3;
    const columns = cells.map(({ text, strong = false }, k) => {
      const font = strong ? this.strong : this.plain;
      return { strong, lines: wrapped(text, font, size, COLUMN * (shares[k] ?? 0) - 6) };
    });
    const most = Math.max(...columns.map(({ lines }) => lines.length));
    // A cell longer than a page goes on below the next head.
    for (let from = 0; from < most; from += ROW_LINES) {
      const height = Math.min(most - from, ROW_LINES) * step + 5;
      if (this.y - height < MARGIN + FOOT) {
        await this.newPage();
        if (head && below) await this.row(shares, head, false);
      }
      let x = MARGIN;
      for (const [k, { strong, lines }] of columns.entries()) {
        for (const [n, line] of lines.slice(from, from + ROW_LINES).entries())
          this.write(line, { x: x + 3, y: this.y - 2 - step * (n + 1) }, size, strong);
        x += COLUMN * (shares[k] ?? 0);
      }
      this.y -= height;
      const [start, end] = [
        { x: MARGIN, y: this.y },
        { x: WIDTH - MARGIN, y: this.y },
      ];
      this.drawn.push(...drawLine({ start, end, thickness: below ? 0.4 : 1, color: RULE }));
    }
  }

  /** Lower left corner of a place of this height on the current page. */
  async place(height: number): Promise<Spot> {
    await this.need(height + 6);
    this.y -= height + 6;
    return { x: MARGIN, y: this.y };
  }

  /** Puts a JPEG into the document and writes it out. It can be drawn on the page that is current then. */
  async picture(jpeg: Uint8Array): Promise<{ readonly width: number; readonly height: number; draw: DrawPicture }> {
    const image = await this.doc.embedJpg(jpeg);
    await image.embed();
    await this.out.release(image.ref);
    const draw: DrawPicture = ({ x, y }, width, height) => {
      const name = this.page.node.newXObject('Picture', image.ref);
      this.drawn.push(...drawImage(name, { x, y, width, height, ...STRAIGHT }));
    };
    return { width: image.width, height: image.height, draw };
  }

  /** A line through points of the current page. */
  line(points: readonly Spot[], thickness: number, color: 'ink' | 'white' = 'ink'): void {
    const [first, ...rest] = points;
    if (!first || rest.length === 0) return;
    // SVG paths run downward from the page's origin here.
    const path = [`M ${first.x} ${-first.y}`, ...rest.map((p) => `L ${p.x} ${-p.y}`)].join(' ');
    const borderColor = color === 'ink' ? INK : WHITE;
    this.drawn.push(
      ...drawSvgPath(path, { x: 0, y: 0, scale: undefined, color: undefined, borderColor, borderWidth: thickness }),
    );
  }

  label(text: string, { x, y }: Spot): void {
    const size = 9;
    const width = this.strong.widthOfTextAtSize(text, size) + 6;
    const box = { x: x - width / 2, y: y - 6, width, height: 12, color: WHITE, borderColor: INK, borderWidth: 0.8 };
    this.drawn.push(...drawRectangle({ ...box, ...STRAIGHT }));
    this.write(text, { x: x - width / 2 + 3, y: y - 3.2 }, size, true);
  }

  /** Numbers the pages, writes one line at the foot of each, and closes the sink. */
  async finish(foot: string, pageOf: (page: number, of: number) => string): Promise<void> {
    await this.putDrawn();
    for (const [k, page] of this.pages.entries()) {
      const number = printable(pageOf(k + 1, this.pages.length));
      const size = 8;
      this.write(printable(foot), { x: MARGIN, y: MARGIN - 10 }, size, false);
      const x = WIDTH - MARGIN - this.plain.widthOfTextAtSize(number, size);
      this.write(number, { x, y: MARGIN - 22 }, size, false);
      await this.putDrawn(page);
    }
    await this.out.finish();
  }

  /** Gives up: whoever reads the sink is told. */
  abort(reason: unknown): Promise<void> {
    return this.out.abort(reason);
  }

  private get page(): PDFPage {
    const page = this.pages.at(-1);
    if (!page) throw new RangeError('no page');
    return page;
  }

  private addPage(): void {
    const page = this.doc.addPage([WIDTH, HEIGHT]);
    page.node.setFontDictionary(PLAIN, this.plain.ref);
    page.node.setFontDictionary(STRONG, this.strong.ref);
    this.pages.push(page);
    this.y = HEIGHT - MARGIN;
  }

  /** Writes out what was drawn on a page since the last time. */
  private async putDrawn(page = this.page): Promise<void> {
    if (this.drawn.length === 0) return;
    const { context } = this.doc;
    const ref = context.register(context.flateStream(this.drawn.join('\n')));
    this.drawn = [];
    page.node.addContentStream(ref);
    await this.out.release(ref);
  }

  private write(line: string, { x, y }: Spot, size: number, strong: boolean): void {
    const [font, name] = strong ? [this.strong, STRONG] : [this.plain, PLAIN];
    this.drawn.push(...drawText(font.encodeText(line), { x, y, size, color: INK, font: name, ...STRAIGHT }));
  }
}
