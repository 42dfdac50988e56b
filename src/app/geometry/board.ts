/** Height of a conductor's row and least height of a role's post on the board, drawing units. */
export const ROW = 60;
export const POST = 46;
/** Room above the first post of a system for its name. */
const CAPTION = 20;

/** One way from a conductor to a role, to be drawn. */
export interface Strand {
  readonly conductor: string;
  /** Key of the post, such as `us-208y120/phase A`. */
  readonly post: string;
}

/** A role of a system, at its height on the board. */
export interface Post {
  readonly key: string;
  /** Key of the frame that it stands in: the system. */
  readonly frame: string;
  readonly y: number;
}

export interface Board {
  readonly height: number;
  /** Middle of each conductor's row. */
  readonly rowY: ReadonlyMap<string, number>;
  readonly posts: readonly Post[];
  /** Where each system's name stands: above its first post. */
  readonly captions: readonly { readonly frame: string; readonly y: number }[];
}

/**
 * Places posts beside rows so that strands cross little: systems, then roles within each, in the order of the mean
 * height of the conductors that lead there, no two closer than a post. Units are those of the drawing.
 */
export function layoutBoard(
  conductors: readonly string[],
  strands: readonly Strand[],
  frameOf: (post: string) => string,
): Board {
  const rowY = new Map(conductors.map((id, i) => [id, (i + 0.5) * ROW]));
  const heights = new Map<string, number[]>();
  const frames = new Map<string, number[]>();
  for (const { conductor, post } of strands) {
    const y = rowY.get(conductor) ?? 0;
    heights.set(post, [...(heights.get(post) ?? []), y]);
    frames.set(frameOf(post), [...(frames.get(frameOf(post)) ?? []), y]);
  }
  const order = [...heights.keys()].sort(
    (a, b) =>
      mean(frames.get(frameOf(a))) - mean(frames.get(frameOf(b))) ||
      compare(frameOf(a), frameOf(b)) ||
      mean(heights.get(a)) - mean(heights.get(b)) ||
      compare(a, b),
  );
  const opens = order.map((key, i) => i === 0 || frameOf(order[i - 1]!) !== frameOf(key));
  const needed = order.reduce((sum, _, i) => sum + POST + (opens[i] ? CAPTION : 0), 0);
  const height = Math.max(conductors.length * ROW, needed);
  const tops: number[] = [];
  let free = 0;
  order.forEach((key, i) => {
    const caption = opens[i] ? CAPTION : 0;
    tops[i] = Math.max(free + caption, mean(heights.get(key)) - POST / 2);
    free = tops[i]! + POST;
  });
  // What was pushed past the end is pushed back up, from the last on.
  let end = height;
  for (let i = order.length - 1; i >= 0; i--) {
    tops[i] = Math.min(tops[i]!, end - POST);
    end = tops[i]! - (opens[i] ? CAPTION : 0);
  }
  return {
    height,
    rowY,
    posts: order.map((key, i) => ({ key, frame: frameOf(key), y: tops[i]! + POST / 2 })),
    captions: order.flatMap((key, i) => (opens[i] ? [{ frame: frameOf(key), y: tops[i]! - CAPTION / 2 }] : [])),
  };
}

const mean = (list: readonly number[] | undefined): number =>
  list && list.length > 0 ? list.reduce((a, b) => a + b, 0) / list.length : 0;
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
