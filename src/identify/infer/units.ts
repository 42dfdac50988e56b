import type { BoardNumbering, SiteKnowledge } from '../../flow';

/** Conductors that the user tied together, by index, and how they are treated. */
export interface Block {
  readonly conductors: readonly number[];
  /** `set`: every role at most once. `free`: one system, roles independent. */
  readonly mode: 'set' | 'free';
  /** One cable, as far as the user said: where switch legs are about, it may carry them instead of a supplied line. */
  readonly cabled: boolean;
}

export interface Units {
  readonly loose: readonly number[];
  readonly blocks: readonly Block[];
  /** By conductor: lands on a breaker pole. */
  readonly onPole: readonly boolean[];
  /** By conductor: pole space, or 0. */
  readonly space: readonly number[];
  /** How those spaces are numbered; absent: as usual. */
  readonly board?: BoardNumbering;
}

/** Largest block in which every role occurs at most once; larger ones hold several circuits. */
export const SET_BLOCK_LIMIT = 6;

/**
 * Splits the conductors into loose ones and blocks. All conductors with a pole space form one block, because a
 * panelboard has one supply; groups that share a conductor are joined.
 */
export function makeUnits(ids: readonly string[], knowledge: SiteKnowledge): Units {
  const index = new Map(ids.map((id, i) => [id, i]));
  const parent = ids.map((_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (parent[r]! !== r) r = parent[r]!;
    return r;
  };
  const join = (a: number, b: number): void => {
    const x = root(a);
    const y = root(b);
    if (x !== y) parent[Math.max(x, y)] = Math.min(x, y);
  };
  const tied = ids.map(() => false);
  const onPole = ids.map(() => false);
  const cabled = ids.map(() => false);
  const space = ids.map((id) => {
    const n = knowledge.spaces[id];
    return n !== undefined && Number.isInteger(n) && n > 0 ? n : 0;
  });
  let first = -1;
  space.forEach((n, i) => {
    if (n === 0) return;
    tied[i] = true;
    onPole[i] = true;
    if (first < 0) first = i;
    else join(first, i);
  });
  for (const group of knowledge.groups) {
    const members = group.conductors.map((id) => index.get(id)).filter((i) => i !== undefined);
    if (group.kind === 'breaker') for (const i of members) onPole[i] = true;
    if (members.length < 2) continue;
    for (const i of members) {
      tied[i] = true;
      if (group.kind === 'cable') cabled[i] = true;
      join(members[0]!, i);
    }
  }
  const byRoot = new Map<number, number[]>();
  const loose: number[] = [];
  ids.forEach((_, i) => {
    if (!tied[i]) {
      loose.push(i);
      return;
    }
    const r = root(i);
    const list = byRoot.get(r);
    if (list) list.push(i);
    else byRoot.set(r, [i]);
  });
  const blocks = [...byRoot.values()].map(
    (conductors): Block => ({
      conductors,
      mode: conductors.length <= SET_BLOCK_LIMIT && conductors.every((i) => space[i] === 0) ? 'set' : 'free',
      cabled: conductors.every((i) => cabled[i]),
    }),
  );
  return { loose, blocks, onPole, space, ...(knowledge.board && { board: knowledge.board }) };
}
