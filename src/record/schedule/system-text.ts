import type { SystemId } from '../../flow';
import { SYSTEMS } from '../../identify';
import { say } from '../../words';

const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]+/g, '');

/** How schedules write the usual supplies beside our own names. Common practice, no source. */
const WRITTEN: Readonly<Record<string, SystemId>> = {
  '208': 'us-208y120',
  '120208': 'us-208y120',
  '208120': 'us-208y120',
  '208y120': 'us-208y120',
  '120y208': 'us-208y120',
  '480': 'us-480y277',
  '277480': 'us-480y277',
  '480277': 'us-480y277',
  '480y277': 'us-480y277',
  '120240': 'us-120-240-1ph',
  '240120': 'us-120-240-1ph',
  '400230': 'iec-230-400',
  '230400': 'iec-230-400',
  '400y230': 'iec-230-400',
  '347600': 'ca-600y347',
  '600y347': 'ca-600y347',
};

let named: ReadonlyMap<string, SystemId> | undefined;

function byName(): ReadonlyMap<string, SystemId> {
  named ??= new Map([
    ...Object.values(SYSTEMS).flatMap((s) => [[plain(s.id), s.id] as const, [plain(say(s.name)), s.id] as const]),
    ...Object.entries(WRITTEN),
  ]);
  return named;
}

/** The supply a schedule means: our id or name, or voltages as "480Y/277 V, 3PH 4W"; null when it is not clear. */
export function readSystem(text: string): SystemId | null {
  const exact = byName().get(plain(text));
  if (exact) return exact;
  const bare = plain(
    text
      .toLowerCase()
      .replaceAll(/\b\d\s*(?:ph|phase|ø|w|wire)\b/g, ' ')
      .replaceAll(/\b(?:wye|vac|ac|volts?|v)\b|(?<=\d)v\b/g, ' '),
  );
  return byName().get(bare) ?? null;
}
