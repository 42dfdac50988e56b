import { type PDFPage, rgb } from '@cantoo/pdf-lib';
import type { Findings, Point } from '../../flow';
import { COLUMN, type Paper } from './paper';

const BLACK = rgb(0, 0, 0);
const WHITE = rgb(1, 1, 1);

/** Points of height a photo may take: two fit on a page with their tables. */
const MOST_HEIGHT = 300;

/**
 * A photo with its conductors marked: a black line with a white rim and a number in a box, which stay readable in
 * gray and over any color of insulation. `jpeg` is upright, in any size.
 */
export async function drawPhoto(paper: Paper, jpeg: Uint8Array, findings: Findings): Promise<void> {
  const image = await paper.doc.embedJpg(jpeg);
  const scale = Math.min(COLUMN / image.width, MOST_HEIGHT / image.height);
  const [width, height] = [image.width * scale, image.height * scale];
  const { page, x, y } = paper.place(height);
  page.drawImage(image, { x, y, width, height });
  const place = ([px, py]: Point): { x: number; y: number } => ({
    x: x + (px / findings.workingWidth) * width,
    y: y + height - (py / findings.workingHeight) * height,
  });
  for (const { centerline } of findings.conductors) {
    const points = thinned(centerline).map(place);
    line(page, points, 3, WHITE);
    line(page, points, 1.2, BLACK);
  }
  // Numbers last, so that no line runs over them.
  for (const [k, { centerline }] of findings.conductors.entries()) {
    const middle = centerline[Math.floor(centerline.length / 2)];
    if (!middle) continue;
    const at = place(middle);
    paper.label(page, String(k + 1), at.x, at.y);
  }
}

/** At most 24 points of a line: enough for a bend at this size. */
function thinned(points: readonly Point[]): readonly Point[] {
  const step = Math.max(1, Math.ceil(points.length / 24));
  return points.filter((_, k) => k % step === 0 || k === points.length - 1);
}

function line(
  page: PDFPage,
  points: readonly { x: number; y: number }[],
  thickness: number,
  color: typeof BLACK,
): void {
  const [first, ...rest] = points;
  if (!first || rest.length === 0) return;
  // SVG paths run downward from the page's origin here.
  const path = [`M ${first.x} ${-first.y}`, ...rest.map((p) => `L ${p.x} ${-p.y}`)].join(' ');
  page.drawSvgPath(path, { x: 0, y: 0, borderColor: color, borderWidth: thickness });
}
