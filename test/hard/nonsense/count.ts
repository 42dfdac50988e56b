import type { Findings } from '../../../src/flow';
import { SURE, saidOf } from '../meaning/compare';

/** What the program claims of a picture, and how surely. */
export interface Claims {
  readonly conductors: number;
  /** Conductors it is at least 0.9 sure of being conductors. */
  readonly surelyThere: number;
  /** Of all conductors: names at 0.9 or above. */
  readonly sureNames: number;
  readonly sureRoles: number;
  readonly verdict: string;
}

export function claimsOf({ conductors, map, capture }: Findings): Claims {
  return {
    conductors: conductors.length,
    surelyThere: conductors.filter((c) => c.presence >= SURE).length,
    sureNames: conductors.filter((c) => saidOf(c).confidence >= SURE).length,
    sureRoles: map.assignments.filter((a) => (a.roles[0]?.probability ?? 0) >= SURE).length,
    verdict: capture.verdict,
  };
}
