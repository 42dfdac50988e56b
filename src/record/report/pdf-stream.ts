import {
  PDFCrossRefSection,
  type PDFDocument,
  PDFHeader,
  type PDFObject,
  type PDFRef,
  PDFTrailer,
  PDFTrailerDict,
} from '@cantoo/pdf-lib';

/**
 * Writes a PDF object by object as they become final, so that pages and pictures already written stand in no memory.
 * Layout after ISO 32000-1, 7.5: header, objects, cross-reference table, trailer.
 */
export class PdfStream {
  private readonly xref = PDFCrossRefSection.create();
  private readonly offsets = new Map<number, { readonly ref: PDFRef; readonly offset: number }>();
  private readonly writer: WritableStreamDefaultWriter<Uint8Array<ArrayBuffer>>;
  private offset = 0;

  constructor(
    private readonly doc: PDFDocument,
    sink: WritableStream<Uint8Array<ArrayBuffer>>,
  ) {
    this.writer = sink.getWriter();
  }

  /** Writes an object that will not change any more, and lets go of it. */
  async release(ref: PDFRef): Promise<void> {
    const object = this.doc.context.lookup(ref);
    if (!object) return;
    await this.object(ref, object);
    this.doc.context.delete(ref);
  }

  /** Writes what is left (page tree, fonts, information) and the table of all objects, and closes the sink. */
  async finish(): Promise<void> {
    const { context } = this.doc;
    await this.doc.flush();
    for (const [ref, object] of context.enumerateIndirectObjects()) await this.object(ref, object);
    for (const [, { ref, offset }] of [...this.offsets].sort(([a], [b]) => a - b)) this.xref.addEntry(ref, offset);
    const start = this.offset;
    const { Root, Info } = context.trailerInfo;
    const dict = context.obj({ Size: context.largestObjectNumber + 1, Root, Info });
    await this.text(`${this.xref.toString()}\n${PDFTrailerDict.of(dict).toString()}\n\n`);
    await this.text(PDFTrailer.forLastCrossRefSectionOffset(start).toString());
    await this.writer.close();
  }

  /** Gives up: whoever reads the sink is told. */
  async abort(reason: unknown): Promise<void> {
    await this.writer.abort(reason);
  }

  private async object(ref: PDFRef, object: PDFObject): Promise<void> {
    if (this.offset === 0) await this.bytes(PDFHeader.forVersion(1, 7));
    this.offsets.set(ref.objectNumber, { ref, offset: this.offset });
    await this.text(`${ref.objectNumber} ${ref.generationNumber} obj\n`);
    await this.bytes(object);
    await this.text('\nendobj\n\n');
  }

  private async bytes(part: Pick<PDFObject, 'sizeInBytes' | 'copyBytesInto'>): Promise<void> {
    const buffer = new Uint8Array(part.sizeInBytes());
    part.copyBytesInto(buffer, 0);
    await this.write(buffer);
    if (part instanceof PDFHeader) await this.text('\n\n');
  }

  private text(text: string): Promise<void> {
    return this.write(new TextEncoder().encode(text));
  }

  private async write(bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    this.offset += bytes.length;
    await this.writer.write(bytes);
  }
}
