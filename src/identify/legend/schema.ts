import * as v from 'valibot';
import { COLOR_NAMES, ROLES, type SiteLegendEntry } from '../../flow';
import { SYSTEMS } from '../data/systems';

const entry = v.strictObject({
  system: v.pipe(
    v.string(),
    v.check((id) => SYSTEMS[id] !== undefined, 'identify.legend.unknown-system'),
  ),
  role: v.picklist(ROLES, 'identify.legend.unknown-role'),
  color: v.picklist(COLOR_NAMES, 'identify.legend.unknown-color'),
  stripe: v.optional(v.picklist(COLOR_NAMES, 'identify.legend.unknown-color')),
});

const legend = v.pipe(
  v.array(
    v.pipe(
      entry,
      v.check((e) => SYSTEMS[e.system]?.roles.includes(e.role) ?? false, 'identify.legend.role-not-in-system'),
      v.check((e) => e.stripe !== e.color, 'identify.legend.stripe-of-same-color'),
    ),
    'identify.legend.not-a-list',
  ),
  v.maxLength(200, 'identify.legend.too-long'),
);

/** What is wrong with an edited legend: catalogue code and the line (from 0), where there is one. */
export interface LegendFault {
  readonly code: string;
  readonly line?: number;
}

export type LegendReading =
  | { readonly ok: true; readonly legend: readonly SiteLegendEntry[] }
  | { readonly ok: false; readonly faults: readonly LegendFault[] };

/** Reads a site legend typed or imported by the user: list of {system, role, color, stripe?}; nothing else passes. */
export function readLegend(input: unknown): LegendReading {
  const result = v.safeParse(legend, input);
  if (result.success) {
    return {
      ok: true,
      legend: result.output.map(({ stripe, ...rest }) => (stripe === undefined ? rest : { ...rest, stripe })),
    };
  }
  return {
    ok: false,
    faults: result.issues.map((issue) => {
      const line = issue.path?.[0]?.key;
      const code = issue.message.startsWith('identify.') ? issue.message : 'identify.legend.malformed';
      return typeof line === 'number' ? { code, line } : { code };
    }),
  };
}
