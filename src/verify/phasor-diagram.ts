import type { PhaseMap, Role, SystemId } from '../flow';
import { groundOf } from './expected-voltage';
import { modelOf, modelsFor, type PostedVolts } from './models';
import { volts } from './phasor';
import type { SystemModel } from './system-model';

export interface DiagramPoint {
  /** Role, several where they share one potential (grounded conductor, equipment grounding conductor, ground). */
  readonly roles: readonly (Role | 'ground')[];
  /** Volts to the right and upward, to scale; ground or the floating middle is at 0, 0. */
  readonly x: number;
  readonly y: number;
}

export interface DiagramEdge {
  /** Indices into `points`. */
  readonly from: number;
  readonly to: number;
  /** Length, nominal volts. */
  readonly volts: number;
}

export interface PhasorDiagram {
  readonly system: SystemId;
  readonly points: readonly DiagramPoint[];
  readonly edges: readonly DiagramEdge[];
  /** Ground is where leakage puts it, not bonded: draw it loose. */
  readonly floating: boolean;
  /** Radius of a circle round 0, 0 that holds every point, volts. */
  readonly reach: number;
}

/** The same drawing for a model with posted volts or a third line. */
export function diagramOf(model: SystemModel): PhasorDiagram {
  const ground = groundOf(model);
  const points: { roles: (Role | 'ground')[]; x: number; y: number }[] = [{ roles: ['ground'], x: 0, y: 0 }];
  for (const point of model.points) {
    const at = point.role === 'equipment grounding conductor' ? ground : point.at;
    const [x, y] = [at.re - ground.re, at.im - ground.im];
    const same = points.find((p) => Math.hypot(p.x - x, p.y - y) < 1e-6);
    if (same) same.roles.push(point.role);
    else points.push({ roles: [point.role], x, y });
  }
  const edges = points.flatMap((a, from) =>
    points.slice(from + 1).map((b, after) => ({
      from,
      to: from + 1 + after,
      volts: volts({ re: a.x, im: a.y }, { re: b.x, im: b.y }),
    })),
  );
  const reach = Math.max(0, ...points.map((p) => Math.hypot(p.x, p.y)));
  return { system: model.id, points, edges, floating: model.ground === 'floating', reach };
}

/**
 * Points and lines of a system's voltages, to scale, to be drawn; null where the voltages are not known. With a map
 * and posted volts, as they are on that site.
 */
export function phasorDiagram(system: SystemId, map?: PhaseMap, posted?: PostedVolts): PhasorDiagram | null {
  const model = map ? modelsFor(map, posted)(system) : modelOf(system);
  return model ? diagramOf(model) : null;
}
