import {
  type BoardNumbering,
  type Message,
  message,
  type Role,
  type ScheduleField,
  type ScheduleLine,
  type SystemId,
  type Termination,
} from '../../flow';
import { mostSpaces, panelKindOf, panelPole } from '../../identify';
import { type ColorText, readColor, readColors } from './color-text';
import { perBoard } from './per-board';
import { readPhases } from './phase-text';
import { readSpaces } from './space-text';
import { readSystem } from './system-text';
import { readTorque } from './torque-text';

/** A line understood as far as it goes: its terminations, and a complaint for each cell that was not clear. */
export interface LineReading {
  readonly terminations: readonly Termination[];
  readonly faults: readonly CellFault[];
}

/** A cell that was not clear. */
export interface CellFault {
  readonly field: ScheduleField;
  readonly message: Message;
}

const NOTHING = /^(?:|-+|n\/?a|none|no|0)$/i;
const PRESENT = /^(?:yes|y|x|1|true|si|sí)$/i;

/**
 * Reads one line. A cell that is not clear is left unknown in its terminations and named in `faults`; the cells
 * themselves stay in the line. A line without a panel or with unclear spaces has no terminations. `board`: how the site's
 * boards are numbered, where not as usual. Lines never change, so that each is read once however often a job is compared.
 */
export const readLine = perBoard(read);

function read(line: ScheduleLine, board: BoardNumbering | undefined): LineReading {
  const faults: CellFault[] = [];
  const cell = (field: ScheduleField): string => line.cells[field]?.trim() ?? '';
  const unclear = (field: ScheduleField): null => {
    faults.push({ field, message: message(`record.schedule.unclear-${field}`, { text: cell(field) }) });
    return null;
  };
  const reading = <T>(field: ScheduleField, read: (text: string) => T | null): T | null => {
    const text = cell(field);
    return text === '' ? null : (read(text) ?? unclear(field));
  };

  const spaces = readSpaces(cell('space'), cell('poles'), board);
  const panel = cell('panel');
  if (panel === '') faults.push({ field: 'panel', message: message('record.schedule.no-panel') });
  if (!spaces) unclear(readSpaces(cell('space'), '', board) ? 'poles' : 'space');
  if (!spaces || panel === '') return { terminations: [], faults };

  const system = reading('system', readSystem);
  const colors = reading('color', (text) => readColors(text, spaces.poles));
  const phases = reading('phase', (text) => readPhases(text, spaces.poles));
  const torque = reading('torque', readTorque);
  // Circuits are numbered by their first space where nothing else is said (common practice, no source).
  const circuit = cell('circuit') || String(spaces.spaces[0] ?? '');
  const common = { line: line.id, panel, circuit, load: cell('load'), size: cell('size'), torque };

  const poles = Array.from({ length: spaces.poles }, (_, k): Termination => {
    const space = spaces.spaces[k] ?? null;
    const role = phases?.[k] ?? behind(space, system, board);
    return {
      ...common,
      id: `${line.id}:${k + 1}`,
      space,
      part: 'pole',
      system,
      role,
      roleGiven: phases !== null,
      ...look(colors?.[k] ?? null),
    };
  });
  const others = (['neutral', 'ground'] as const).flatMap((part): Termination[] => {
    const text = cell(part);
    if (NOTHING.test(text)) return [];
    const color = PRESENT.test(text) ? null : (readColor(text) ?? unclear(part));
    const role: Role = part === 'neutral' ? 'grounded conductor' : 'equipment grounding conductor';
    return [{ ...common, id: `${line.id}:${part}`, space: null, part, system, role, roleGiven: true, ...look(color) }];
  });
  return { terminations: [...poles, ...others], faults };
}

const look = (color: ColorText | null): Pick<Termination, 'color' | 'stripe'> => color ?? { color: null, stripe: null };

/** The phase behind a pole space, where the board follows the pattern. */
function behind(space: number | null, system: SystemId | null, board?: BoardNumbering): Role | null {
  const kind = system === null ? null : panelKindOf(system);
  return kind === null || space === null || space > mostSpaces(board) ? null : panelPole(space, kind, board);
}
