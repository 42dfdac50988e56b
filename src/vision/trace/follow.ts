import type { Point } from '../../flow';
import { alignment, type Field, indexAt, inField, type Look, lookApart, lookAt, lookDistance } from './field';

/** One step of a traced length. `seen` is false where something lies across it. */
export interface TracePoint {
  readonly at: Point;
  readonly halfWidth: number;
  readonly seen: boolean;
  /** Wire probability at the center, 0 where not seen. */
  readonly wire: number;
}

export type StopReason = 'border' | 'lost' | 'changed' | 'taken';

/** A direction with a place, a width and a look to go on from. */
export interface TraceState {
  /** Look where the trace began: shading may change on the way, the color may not. */
  readonly origin: Look;
  x: number;
  y: number;
  dx: number;
  dy: number;
  halfWidth: number;
  look: Look;
}

/** Tells whether a place already belongs to a conductor that runs the same way. */
export type Taken = (x: number, y: number, dx: number, dy: number) => boolean;

const ALIGNED = 0.55;
/**
 * A strip that is alike all across and wider than `widths` of the widths that a learned segmentation gives there holds
 * neighbors that no edge was seen of. Its borders are looked for up to `reach` half widths away; `way`: all of it runs the
 * same way, or something crosses. Set on the labeled photographs.
 */
const NEIGHBORS = { widths: 1.4, reach: 4, way: 0.8 };
const MOST_STEPS = 4000;
const LOOK_MAX = 38;
/** How far the look may drift from where the trace began. */
const DRIFT_MAX = 48;

/** A cross-section: where the conductor's middle is, how wide, how it looks. */
export interface Section {
  /** Offset of the middle along the normal from the asked place, pixels. */
  readonly offset: number;
  readonly halfWidth: number;
  readonly wire: number;
  readonly look: Look;
  /** Direction measured there, unit, turned to go along with the asked one. */
  readonly dx: number;
  readonly dy: number;
}

/**
 * Looks across a conductor that is expected at (x, y) running along (dx, dy). `look` undefined accepts any
 * color. Undefined where no aligned conductor pixel lies within reach (pixels) of the middle.
 */
export function crossSection(
  field: Field,
  x: number,
  y: number,
  dx: number,
  dy: number,
  reach: number,
  look: Look | undefined,
): Section | undefined {
  const { planes } = field;
  const nx = -dy;
  const ny = dx;
  let best = -1;
  let bestValue = 0;
  let bestOffset = 0;
  const step = Math.max(0.5, reach / 8);
  for (let t = 0; t <= reach; t += step) {
    const near = 1 - (0.5 * t) / (reach + 1);
    for (let side = 1; side >= (t === 0 ? 1 : -1); side -= 2) {
      const o = side * t;
      const px = x + nx * o;
      const py = y + ny * o;
      if (!inField(field, px, py)) continue;
      const i = indexAt(field, px, py);
      if (planes.wire[i]! < field.least) continue;
      const way = alignment(field, i, dx, dy);
      if (way < ALIGNED) continue;
      const most = planes.wire[i]! * way;
      // No look makes it better than the best.
      if (most * near <= bestValue) continue;
      const off = look ? lookApart(field, look, i) : 0;
      if (off > LOOK_MAX) continue;
      const value = most * (1 - off / (2 * LOOK_MAX)) * near;
      if (value > bestValue) {
        bestValue = value;
        best = i;
        bestOffset = o;
      }
    }
  }
  if (best < 0) return undefined;
  const half = Math.max(1, planes.halfWidth[best]!);
  const here = lookAt(field, best);
  const low = runEnd(-1);
  const high = runEnd(1);
  const own = low.alike && high.alike ? amongNeighbors(low.border, high.border) : undefined;
  if (own) return measure(own.offset, own.halfWidth, here);
  return measure((low.at + high.at) / 2, Math.max(1, (high.at - low.at) / 2), here);

  /**
   * Walks from the best sample to the side until edge, other look or twice the local half-width; `border`: where edge or
   * other look were met, a neighbor's too, as long as all before is `alike`.
   */
  function runEnd(side: 1 | -1): { readonly at: number; readonly border?: number; readonly alike: boolean } {
    let at = bestOffset;
    let last = bestOffset;
    let alike = planes.learned;
    // Steps are half a pixel: what was found of a pixel serves for the next step as well.
    let i = -1;
    let way = 0;
    for (let t = 0.5; t <= half * (alike ? NEIGHBORS.reach : 2); t += 0.5) {
      const offset = bestOffset + side * t;
      const px = x + nx * offset;
      const py = y + ny * offset;
      if (!inField(field, px, py)) return { at, alike };
      const there = indexAt(field, px, py);
      if (there !== i) {
        i = there;
        if (planes.wire[i]! < field.least) return { at, border: last, alike };
        way = alignment(field, i, dx, dy);
        if (way < 0.3) return { at, alike: false };
      }
      alike &&= way > NEIGHBORS.way;
      if (!alike && t > half * 2) break;
      const edge = t > half * 0.5 && planes.edge[i]! > 0.5;
      // Inside what the network takes for this conductor a change of color is a stripe, not a border.
      const within = planes.learned && Math.abs(offset) < 0.8 * half;
      if (!edge && !within && lookApart(field, here, i) > LOOK_MAX * 1.3) return { at, border: last, alike };
      last = offset;
      if (t <= half * 2) at = offset;
      if (edge) return { at, border: last, alike };
    }
    return { at, alike };
  }

  /** The conductor's own place in a strip of several, counted from the borders that are seen; undefined in any other. */
  function amongNeighbors(first: number | undefined, last: number | undefined) {
    if (first === undefined && last === undefined) return undefined;
    if (first === undefined || last === undefined) {
      const [border, side] = first === undefined ? [last!, -1] : [first, 1];
      const place = Math.floor(Math.abs(bestOffset - border) / (2 * half));
      return { offset: border + side * (2 * place + 1) * half, halfWidth: half };
    }
    const width = last - first;
    if (width <= NEIGHBORS.widths * 2 * half) return undefined;
    const lane = width / Math.round(width / (2 * half));
    const place = Math.min(Math.floor((bestOffset - first) / lane), Math.round(width / lane) - 1);
    return { offset: first + (place + 0.5) * lane, halfWidth: lane / 2 };
  }

  function measure(offset: number, halfWidth: number, color: Look): Section {
    let c = 0;
    let s = 0;
    let wire = 0;
    let count = 0;
    for (let u = -1; u <= 1; u++)
      for (let v = -1; v <= 1; v++) {
        const px = x + nx * (offset + v * halfWidth * 0.4) + dx * u * halfWidth * 0.6;
        const py = y + ny * (offset + v * halfWidth * 0.4) + dy * u * halfWidth * 0.6;
        if (!inField(field, px, py)) continue;
        const i = indexAt(field, px, py);
        const w = planes.wire[i]! * alignment(field, i, dx, dy);
        c += w * planes.direction[i * 2]!;
        s += w * planes.direction[i * 2 + 1]!;
        wire += planes.wire[i]!;
        count++;
      }
    const angle = 0.5 * Math.atan2(s, c);
    let mx = Math.cos(angle);
    let my = Math.sin(angle);
    if (mx * dx + my * dy < 0) {
      mx = -mx;
      my = -my;
    }
    return { offset, halfWidth, wire: count ? wire / count : 0, look: color, dx: mx, dy: my };
  }
}

const CELL_PX = 4;
/** More cells than lie side by side in any picture. */
const CELLS = 2 ** 16;
/** Steps that must lie between two visits of one place before they count as going in circles. */
const CIRCLE_STEPS = 12;

/** Places a trace has been, so that it ends where it meets itself along its own way. Crossing itself is allowed. */
export class Visited {
  private readonly cells = new Map<number, { n: number; dx: number; dy: number }[]>();

  /** Notes step `n` (negative when going backward from the seed); true when this place was passed before, same way. */
  again(state: TraceState, n: number): boolean {
    const key = Math.floor(state.y / CELL_PX) * CELLS + Math.floor(state.x / CELL_PX);
    const visit = { n, dx: state.dx, dy: state.dy };
    const visits = this.cells.get(key);
    if (!visits) {
      this.cells.set(key, [visit]);
      return false;
    }
    const met = visits.some(
      (v) => Math.abs(v.n - n) > CIRCLE_STEPS && Math.abs(v.dx * state.dx + v.dy * state.dy) > 0.9,
    );
    visits.push(visit);
    return met;
  }
}

/**
 * Follows a conductor from a state until the picture ends, it is lost for longer than something lying across it
 * explains, or `taken` says that it was traced before. The state is not changed.
 */
export function follow(
  field: Field,
  start: TraceState,
  taken: Taken,
  visited: Visited,
  way: 1 | -1,
): { points: TracePoint[]; stop: StopReason } {
  const state = { ...start };
  const points: TracePoint[] = [];
  let unseen = 0;
  let otherColor = 0;
  let pending: TracePoint[] = [];
  for (let n = 1; n <= MOST_STEPS; n++) {
    const step = Math.max(1.5, Math.min(6, state.halfWidth * 0.6));
    state.x += state.dx * step;
    state.y += state.dy * step;
    if (!inField(field, state.x, state.y)) return { points, stop: 'border' };
    if (taken(state.x, state.y, state.dx, state.dy) || visited.again(state, way * n)) return { points, stop: 'taken' };
    const reach = Math.max(1.5, state.halfWidth * 0.7) + unseen * 0.12;
    const section = crossSection(field, state.x, state.y, state.dx, state.dy, reach, state.look);
    if (section && plausible(section, state) && lookDistance(state.origin, section.look) < DRIFT_MAX) {
      otherColor = 0;
      if (pending.length > 0) points.push(...pending);
      pending = [];
      unseen = 0;
      advance(state, section);
      points.push({ at: [state.x, state.y], halfWidth: state.halfWidth, seen: true, wire: section.wire });
      continue;
    }
    const banded = bandSection(field, state);
    if (banded && otherColor < BAND_IN_HALF_WIDTHS * state.halfWidth) {
      otherColor += step;
      points.push(...pending, { at: [state.x, state.y], halfWidth: state.halfWidth, seen: true, wire: banded.wire });
      pending = [];
      unseen = 0;
      continue;
    }
    unseen += step;
    pending.push({ at: [state.x, state.y], halfWidth: state.halfWidth, seen: false, wire: 0 });
    if (unseen > allowance(field, state)) return { points, stop: section ? 'changed' : 'lost' };
  }
  return { points, stop: 'lost' };
}

/** A stripe, ring or tape of another color may be this long; what is longer is another conductor. */
const BAND_IN_HALF_WIDTHS = 8;
/** Nothing about the body may change under a band but its color. */
const BAND = { width: 0.3, offset: 0.4, way: Math.cos((15 * Math.PI) / 180) };

/**
 * The cross-section where the color changed and nothing else did: same middle, width and direction, no edge across
 * the way. Only a learned segmentation can tell that; undefined otherwise.
 */
function bandSection(field: Field, state: TraceState): Section | undefined {
  if (!field.planes.learned) return undefined;
  const section = crossSection(field, state.x, state.y, state.dx, state.dy, state.halfWidth * 0.5, undefined);
  if (!section) return undefined;
  const same =
    Math.abs(Math.log(section.halfWidth / state.halfWidth)) < BAND.width &&
    Math.abs(section.offset) < BAND.offset * state.halfWidth &&
    section.dx * state.dx + section.dy * state.dy > BAND.way;
  return same ? section : undefined;
}

const plausible = (section: Section, state: TraceState): boolean => {
  const ratio = section.halfWidth / state.halfWidth;
  return ratio > 0.45 && ratio < 1.9;
};

/** Moves the state onto the measured middle, gently: one bad section must not throw the trace off. */
function advance(state: TraceState, section: Section): void {
  const shift = Math.max(-0.5 * state.halfWidth, Math.min(0.5 * state.halfWidth, section.offset * 0.5));
  state.x += -state.dy * shift;
  state.y += state.dx * shift;
  const dx = state.dx * 0.55 + section.dx * 0.45;
  const dy = state.dy * 0.55 + section.dy * 0.45;
  const size = Math.hypot(dx, dy) || 1;
  state.dx = dx / size;
  state.dy = dy / size;
  state.halfWidth = state.halfWidth * 0.85 + section.halfWidth * 0.15;
  state.look = [
    state.look[0] * 0.9 + section.look[0] * 0.1,
    state.look[1] * 0.92 + section.look[1] * 0.08,
    state.look[2] * 0.92 + section.look[2] * 0.08,
  ];
}

/** How far a conductor may stay unseen here: two of its widths, more under something wider that crosses it. */
function allowance(field: Field, state: TraceState): number {
  const own = state.halfWidth * 4 + 4;
  const i = indexAt(field, state.x, state.y);
  const across = field.planes.wire[i]! > field.least && alignment(field, i, state.dx, state.dy) < ALIGNED;
  return across ? own + field.planes.halfWidth[i]! * 4 : own;
}
