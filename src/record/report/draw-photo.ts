import type { Findings, Point } from '../../flow';
import { COLUMN, type Paper, type Spot } from './paper';

/** Points of height a photo may take: two fit on a page with their tables. */
const MOST_HEIGHT = 300;

/**
 * A photo with its conductors marked: a black line with a white rim and a number in a box, which stay readable in
 * gray and over any color of insulation. `jpeg` is upright, in any size.
 */
export async function drawPhoto(paper: Paper, jpeg: Uint8Array, findings: Findings): Promise<void> {
  const image = await paper.picture(jpeg);
  const scale = Math.min(COLUMN / image.width, MOST_HEIGHT / image.height);
  const [width, height] = [image.width * scale, image.height * scale];
  const corner = await paper.place(height);
  image.draw(corner, width, height);
  const place = ([px, py]: Point): Spot => ({
    x: corner.x + (px / findings.workingWidth) * width,
    y: corner.y + height - (py / findings.workingHeight) * height,
  });
  for (const { centerline } of findings.conductors) {
    const points = thinned(centerline).map(place);
    paper.line(points, 3, 'white');
    paper.line(points, 1.2);
  }
  // Numbers last, so that no line runs over them.
  for (const [k, { centerline }] of findings.conductors.entries()) {
    const middle = centerline[Math.floor(centerline.length / 2)];
    if (middle) paper.label(String(k + 1), place(middle));
  }
}

/** At most 24 points of a line: enough for a bend at this size. */
function thinned(points: readonly Point[]): readonly Point[] {
  const step = Math.max(1, Math.ceil(points.length / 24));
  return points.filter((_, k) => k % step === 0 || k === points.length - 1);
}
