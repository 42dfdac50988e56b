import { message, type Role, type SystemId } from '../../flow';
import type { Jurisdiction, NominalVoltage, System, SystemKind } from '../system';

const N: Role = 'grounded conductor';
const G: Role = 'equipment grounding conductor';
const ABC: readonly Role[] = ['phase A', 'phase B', 'phase C'];
const LINES: readonly Role[] = ['line 1', 'line 2'];

const IEC_TABLE = 'IEC 60038 table 1 (secondary text)';
const MEMORY = 'follows from the geometry of the winding; no text read';

const volts = (source: string, lineToNeutral?: number, lineToLine?: number, high?: number): NominalVoltage => ({
  ...(lineToNeutral === undefined ? {} : { lineToNeutral }),
  ...(lineToLine === undefined ? {} : { lineToLine }),
  ...(high === undefined ? {} : { highLegToNeutral: high }),
  source,
  status: source === MEMORY || source.endsWith('(memory)') ? 'from memory' : 'read',
});

const NO_VOLTS: NominalVoltage = {
  source: 'the color tells nothing of the voltage',
  status: 'common practice, no source',
};

const system = (
  id: SystemId,
  jurisdiction: Jurisdiction,
  kind: SystemKind,
  roles: readonly Role[],
  nominal: NominalVoltage,
): System => ({ id, jurisdiction, kind, name: message(`identify.system.${id}`), roles, nominal });

/** Nameplate voltages; exact figures come from phasors in the verify room. */
const LIST: readonly System[] = [
  system('us-120-240-1ph', 'US', 'split phase', [...LINES, N, G], volts(IEC_TABLE, 120, 240)),
  system('us-208y120', 'US', 'wye', [...ABC, N, G], volts(IEC_TABLE, 120, 208)),
  system('us-480y277', 'US', 'wye', [...ABC, N, G], volts(IEC_TABLE, 277, 480)),
  system(
    'us-240-120-high-leg',
    'US',
    'high-leg delta',
    ['phase A', 'high leg', 'phase C', N, G],
    volts('240 x sqrt(3) / 2 = 207.85 (terrylove.com, thebuildingcodeforum.com thread 35478)', 120, 240, 208),
  ),
  system('us-240-delta', 'US', 'delta', [...ABC, G], volts(MEMORY, undefined, 240)),
  system('us-480-delta', 'US', 'delta', [...ABC, G], volts(MEMORY, undefined, 480)),
  system('us-240-corner', 'US', 'corner-grounded delta', ['phase A', 'phase C', N, G], volts(MEMORY, 240, 240)),
  system('us-480-corner', 'US', 'corner-grounded delta', ['phase A', 'phase C', N, G], volts(MEMORY, 480, 480)),
  system(
    'us-isolated-power',
    'US',
    'isolated',
    ['isolated conductor 1', 'isolated conductor 2', 'isolated conductor 3', G],
    volts(MEMORY, undefined, 120),
  ),
  system('us-dc', 'US', 'dc', ['positive', 'negative', G], NO_VOLTS),
  system('us-pv-dc', 'US', 'dc', ['positive', 'negative', G], NO_VOLTS),
  system('us-switch-legs', 'US', 'auxiliary', ['switch leg', 'traveler'], NO_VOLTS),
  system('us-isolated-ground', 'US', 'auxiliary', ['isolated ground'], NO_VOLTS),
  system('us-control', 'US', 'auxiliary', ['control'], NO_VOLTS),
  system('us-fire-alarm', 'US', 'auxiliary', ['control'], NO_VOLTS),
  system('us-intrinsically-safe', 'US', 'auxiliary', ['control'], NO_VOLTS),
  system('ca-120-240-1ph', 'CA', 'split phase', [...LINES, N, G], volts(IEC_TABLE, 120, 240)),
  system('ca-208y120', 'CA', 'wye', [...ABC, N, G], volts(IEC_TABLE, 120, 208)),
  system('ca-600y347', 'CA', 'wye', [...ABC, N, G], volts(IEC_TABLE, 347, 600)),
  system(
    'ca-240-120-high-leg',
    'CA',
    'high-leg delta',
    ['high leg', 'phase B', 'phase C', N, G],
    volts('CEC rule 4-036(4): the high one is A', 120, 240, 208),
  ),
  system(
    'ca-isolated',
    'CA',
    'isolated',
    ['isolated conductor 1', 'isolated conductor 2', 'isolated conductor 3', G],
    volts(MEMORY, undefined, 120),
  ),
  system('ca-switch-legs', 'CA', 'auxiliary', ['switch leg', 'traveler'], NO_VOLTS),
  system('iec-230-400', 'IEC', 'wye', [...ABC, N, G], volts(IEC_TABLE, 230, 400)),
  system('iec-230-1ph', 'IEC', 'single line', ['line 1', N, G], volts(IEC_TABLE, 230)),
  system('iec-dc', 'IEC', 'dc', ['positive', 'negative', N, G], NO_VOLTS),
  system('iec-machine', 'IEC', 'auxiliary', ['control'], NO_VOLTS),
  system('uk-230-400', 'UK', 'wye', [...ABC, N, G], volts(IEC_TABLE, 230, 400)),
  system('uk-230-1ph', 'UK', 'single line', ['line 1', N, G], volts(IEC_TABLE, 230)),
  system(
    'uk-pre-2004-3ph',
    'UK',
    'wye',
    [...ABC, N, G],
    volts('240/415 V before 1995 (electrical-contractor.net posts 132967)', 240, 415),
  ),
  system(
    'uk-pre-2004-1ph',
    'UK',
    'single line',
    ['line 1', N, G],
    volts('diynot.com, wiring regulations appendix 2', 240),
  ),
  system('uk-dc', 'UK', 'dc', ['positive', 'negative', G], NO_VOLTS),
  system('uk-dc-pre-2022', 'UK', 'dc', ['positive', 'negative', N, G], NO_VOLTS),
  system('au-traditional-3ph', 'AU', 'wye', [...ABC, N, G], volts('AS 60038 (memory)', 230, 400)),
  system('au-harmonized-3ph', 'AU', 'wye', [...ABC, N, G], volts('AS 60038 (memory)', 230, 400)),
  system('cn-220-380', 'CN', 'wye', [...ABC, N, G], volts('GB practice (memory)', 220, 380)),
  system('in-230-400', 'IN', 'wye', [...ABC, N, G], volts(IEC_TABLE, 230, 400)),
  system('jp-100-200-1ph', 'JP', 'split phase', [...LINES, N, G], volts('Japanese practice (memory)', 100, 200)),
  system(
    'jp-200-3ph',
    'JP',
    'corner-grounded delta',
    ['phase A', 'phase C', N, G],
    volts('Japanese practice (memory)', 200, 200),
  ),
  system('jp-3ph4w', 'JP', 'wye', [...ABC, N, G], volts('Japanese practice (memory)', 240, 415)),
  system('jp-dc', 'JP', 'dc', ['positive', 'negative', G], NO_VOLTS),
];

/** Every supply arrangement known here, by id. No prototype: ids come from records, and `constructor` is none. */
export const SYSTEMS: Readonly<Record<SystemId, System>> = Object.assign(
  Object.create(null) as Record<SystemId, System>,
  Object.fromEntries(LIST.map((s) => [s.id, s])),
);
