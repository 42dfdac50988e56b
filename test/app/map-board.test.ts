import { describe, expect, test } from 'vitest';
import { layoutBoard, POST, ROW } from '../../src/app/geometry/board';
import { breakerSpans, panelRows } from '../../src/app/screens/map/panel-rows';
import { frameOf, postKey, proposals } from '../../src/app/screens/map/proposals';
import type { Assignment, BoardNumbering } from '../../src/flow';
import { panelMap } from '../../src/identify';
import { conductors, site } from '../identify/make';

const strand = (conductor: string, post: string) => ({ conductor, post });

describe('the board of the phase map', () => {
  const three = layoutBoard(
    ['a', 'b', 'c'],
    [strand('a', 's/phase A'), strand('b', 't/phase A'), strand('c', 's/phase C'), strand('a', 's/phase C')],
    frameOf,
  );

  test('gives every conductor its row, in order', () => {
    expect([...three.rowY.values()]).toEqual([0.5 * ROW, 1.5 * ROW, 2.5 * ROW]);
  });

  test('keeps posts apart, systems together, and all on the board', () => {
    for (let i = 1; i < three.posts.length; i++) {
      expect(three.posts[i]!.y - three.posts[i - 1]!.y).toBeGreaterThanOrEqual(POST - 1e-9);
    }
    const frames = three.posts.map((p) => p.frame);
    expect(frames.filter((f, i) => f !== frames[i - 1]).length).toBe(new Set(frames).size);
    for (const p of three.posts) {
      expect(p.y - POST / 2).toBeGreaterThanOrEqual(0);
      expect(p.y + POST / 2).toBeLessThanOrEqual(three.height + 1e-9);
    }
  });

  test('grows when one conductor may be many things', () => {
    const many = ['A', 'B', 'C', 'D', 'E'].map((role) => strand('a', `s/${role}`));
    const board = layoutBoard(['a'], many, frameOf);
    expect(board.posts).toHaveLength(5);
    expect(board.height).toBeGreaterThanOrEqual(5 * POST);
    expect(board.captions.every((c) => c.y > 0)).toBe(true);
  });

  test('does not care for the order of the strands', () => {
    const strands = [strand('a', 's/phase A'), strand('b', 's/phase B'), strand('c', 't/phase A')];
    expect(layoutBoard(['a', 'b', 'c'], strands.toReversed(), frameOf)).toEqual(
      layoutBoard(['a', 'b', 'c'], strands, frameOf),
    );
  });

  test('joins a role that two systems share, names the likelier system, and drops what is not worth a strand', () => {
    const assignment: Assignment = {
      conductor: 'a',
      because: [],
      roles: [
        { system: 's', role: 'grounded conductor', probability: 0.5 },
        { system: 't', role: 'grounded conductor', probability: 0.3 },
        { system: 's', role: 'phase A', probability: 0.1 },
        { system: 's', role: 'phase B', probability: 0.01 },
      ],
    };
    const ways = proposals(assignment);
    expect(ways.map(postKey)).toEqual(['s/grounded conductor', 's/phase A']);
    expect(ways[0]!.probability).toBeCloseTo(0.8, 12);
    expect(proposals(undefined)).toEqual([]);
  });
});

describe('the drawn panel', () => {
  const cs = conductors('black', 'red', 'red', 'blue');
  const spaces = { c1: 1, c2: 4, c3: 4, c4: 5 };
  const assignments = cs.map((c) => ({ conductor: c.id, roles: [], because: [] }));
  const rows = panelRows(panelMap('three-phase', 'us-208y120', cs, { assignments }, site({ spaces })));

  test('odd left, even right, rows A, B, C down to the last space in use; a tandem breaker holds two', () => {
    expect(rows.map((r) => r.left!.expected)).toEqual(['phase A', 'phase B', 'phase C']);
    expect(rows[0]!.left!.conductors.map((c) => c.id)).toEqual(['c1']);
    expect(rows[1]!.right!.conductors.map((c) => c.id)).toEqual(['c2', 'c3']);
    expect(rows[2]!.right).toBeNull();
  });

  test('brackets the poles of one breaker, on each side for itself, and no single pole', () => {
    const groups = [
      { kind: 'breaker', conductors: ['c1', 'c4'] },
      { kind: 'breaker', conductors: ['c2', 'c3'] },
      { kind: 'cable', conductors: ['c1', 'c4'] },
    ] as const;
    expect(breakerSpans(site({ spaces, groups }))).toEqual([{ side: 'left', spaces: [1, 5] }]);
  });

  const numbered = (board: BoardNumbering, on: Readonly<Record<string, number>>) => {
    const map = panelMap('three-phase', 'us-208y120', cs, { assignments }, site({ spaces: on, board }));
    return panelRows(map).map((r) => [r.left?.space ?? 0, r.right?.space ?? 0]);
  };

  test('follows a board numbered straight down: one column, or the right beside the left', () => {
    expect(numbered({ order: 'down' }, { c1: 3 })).toEqual([
      [1, 0],
      [2, 0],
      [3, 0],
    ]);
    expect(numbered({ order: 'down', rows: 3 }, { c1: 5 })).toEqual([
      [1, 4],
      [2, 5],
      [3, 0],
    ]);
    const groups = [{ kind: 'breaker', conductors: ['c1', 'c4'] }] as const;
    const board = { order: 'down', rows: 3 } as const;
    expect(breakerSpans(site({ spaces: { c1: 4, c4: 5 }, groups, board }))).toEqual([
      { side: 'right', spaces: [4, 5] },
    ]);
    // Twin: numbered as usual these two lie on two sides.
    expect(breakerSpans(site({ spaces: { c1: 4, c4: 5 }, groups }))).toEqual([]);
  });

  test('turns a board mounted upside down: 1 at the bottom right', () => {
    expect(numbered({ order: 'upside down' }, { c1: 5 })).toEqual([
      [0, 5],
      [4, 3],
      [2, 1],
    ]);
  });
});
