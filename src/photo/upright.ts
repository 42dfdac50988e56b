/** Canvas transform [a, b, c, d, e, f]. */
type Transform = readonly [number, number, number, number, number, number];

/**
 * Transform that stands a stored picture upright on a canvas of the upright size, by EXIF orientation 1 to 8
 * (Exif 2.32, tag 274; from memory). The picture is then drawn at (0, 0) with its stored size.
 */
export function uprightTransform(orientation: number, width: number, height: number): Transform {
  switch (orientation) {
    case 2:
      return [-1, 0, 0, 1, width, 0];
    case 3:
      return [-1, 0, 0, -1, width, height];
    case 4:
      return [1, 0, 0, -1, 0, height];
    case 5:
      return [0, 1, 1, 0, 0, 0];
    case 6:
      return [0, 1, -1, 0, width, 0];
    case 7:
      return [0, -1, -1, 0, width, height];
    case 8:
      return [0, -1, 1, 0, 0, height];
    default:
      return [1, 0, 0, 1, 0, 0];
  }
}
