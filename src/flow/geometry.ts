/** A place in the working image: x to the right, y down, in pixels; (0, 0) is the top left corner of the top left pixel. */
export type Point = readonly [x: number, y: number];

/** A closed ring of points; the last is joined to the first. */
export type Polygon = readonly Point[];
