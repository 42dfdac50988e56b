import type { BoardNumbering } from '../../flow';

/**
 * Remembers what was made of an object that never changes, for the numbering of boards asked for last. Forgotten with the
 * object.
 */
export function perBoard<K extends object, V>(
  make: (of: K, board: BoardNumbering | undefined) => V,
): (of: K, board?: BoardNumbering) => V {
  const known = new WeakMap<K, { readonly board: BoardNumbering | undefined; readonly made: V }>();
  return (of, board) => {
    const before = known.get(of);
    if (before && before.board === board) return before.made;
    const made = make(of, board);
    known.set(of, { board, made });
    return made;
  };
}
