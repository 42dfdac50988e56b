import type { ScheduleField } from '../../flow';

/** Which column (from 0) holds which field. */
export type ColumnMap = Readonly<Partial<Record<ScheduleField, number>>>;

/** Headings seen on panel schedules, in lower case without signs. Common practice, no source. */
const HEADINGS: Readonly<Record<ScheduleField, readonly string[]>> = {
  panel: ['panel', 'panelboard', 'board', 'panel name', 'panel id', 'pnl', 'tablero', 'distribution board'],
  space: ['space', 'pole space', 'spaces', 'breaker space', 'slot', 'position', 'pos', 'way', 'espacio'],
  poles: ['poles', 'pole', 'p', 'no of poles', 'number of poles', 'polos'],
  system: ['system', 'voltage', 'supply', 'volts', 'sistema', 'tension'],
  phase: ['phase', 'phases', 'ph', 'leg', 'fase'],
  circuit: ['circuit', 'ckt', 'cct', 'circuit no', 'circuit number', 'ckt no', 'circuito'],
  load: ['load', 'description', 'load description', 'load served', 'serves', 'carga'],
  color: ['color', 'colour', 'conductor color', 'conductor colour', 'wire color', 'insulation', 'insulation color'],
  size: ['size', 'conductor size', 'wire size', 'awg', 'gauge', 'conductor', 'calibre'],
  neutral: ['neutral', 'grounded conductor', 'neutral color', 'n', 'neutro'],
  ground: ['ground', 'equipment ground', 'egc', 'earth', 'ground color', 'g', 'tierra'],
  torque: ['torque', 'tightening torque', 'lug torque', 'par'],
  photo: ['photo', 'picture', 'photo file', 'file', 'image', 'foto'],
};

const plain = (heading: string): string =>
  heading
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^a-z0-9]+/g, ' ')
    .trim();

/** A first idea of what each column holds, by its heading; the user corrects it. No column is taken twice. */
export function suggestColumns(heading: readonly string[]): ColumnMap {
  const names = heading.map(plain);
  const taken = new Set<number>();
  const map: Partial<Record<ScheduleField, number>> = {};
  for (const [field, words] of Object.entries(HEADINGS) as [ScheduleField, readonly string[]][]) {
    const at = names.findIndex((name, k) => !taken.has(k) && words.includes(name));
    if (at < 0) continue;
    taken.add(at);
    map[field] = at;
  }
  return map;
}

/** Tells sheets of one layout: under this key a mapping is remembered. */
export const layoutKey = (heading: readonly string[]): string => heading.map(plain).join('|');
