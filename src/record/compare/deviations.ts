import {
  type BoardNumbering,
  type Deviation,
  type Message,
  message,
  type Severity,
  type TerminationEntry,
  type Turnover,
} from '../../flow';
import { mostSpaces, panelKindOf, panelPole } from '../../identify';
import { newtonMeters, type RowFault } from '../schedule';
import type { Compared } from './compare';

const ORDER: readonly Severity[] = ['danger', 'violation', 'warning', 'note'];

/** Two torques closer than this are the same one, rounded: values on labels have two or three digits. */
const TORQUE_ROUNDING = 0.01;

const words = (code: string, values?: Message['values']): Message => message(`record.deviation.${code}`, values);

function* ofTermination(
  compared: Compared,
  { torque, witness }: TerminationEntry,
  board?: BoardNumbering,
): Generator<Omit<Deviation, 'id' | 'termination' | 'panel'>> {
  const { termination: t, comparison, because, standing, sight } = compared;
  if (standing === 'disputed') yield { code: 'disputed', severity: 'danger', message: words('disputed') };
  // Paired by order it may be the neighbor: to be looked at before it is called a violation.
  const byOrder = sight.kind === 'seen' && sight.said?.how === 'by order';
  if (comparison === 'differs')
    yield { code: 'differs', severity: byOrder ? 'warning' : 'violation', message: because };
  if (comparison === 'missing') yield { code: 'missing', severity: 'warning', message: because };
  if (comparison === 'cannot tell') yield { code: 'cannot-tell', severity: 'note', message: because };
  if (sight.kind === 'seen' && standing !== 'metered' && standing !== 'disputed' && t.part !== 'ground')
    yield { code: 'no-reading', severity: 'warning', message: words('no-reading') };
  const kind = t.system === null ? null : panelKindOf(t.system);
  if (kind !== null && t.space !== null && t.space <= mostSpaces(board) && t.roleGiven && t.role !== null) {
    const behind = panelPole(t.space, kind, board);
    if (behind !== t.role) {
      const values = { space: t.space, given: roleCode(t.role), behind: roleCode(behind) };
      yield { code: 'phase', severity: 'violation', message: words('phase', values) };
    }
  }
  if (t.torque && !torque) yield { code: 'no-torque', severity: 'note', message: words('no-torque') };
  if (t.torque && torque) {
    const [wanted, given] = [newtonMeters(t.torque), newtonMeters(torque)];
    if (Math.abs(given / wanted - 1) > TORQUE_ROUNDING) {
      const values = { wanted: `${t.torque.value} ${t.torque.unit}`, given: `${torque.value} ${torque.unit}` };
      yield { code: 'torque', severity: 'warning', message: words('torque', values) };
    }
  }
  if (witness?.seen === false) yield { code: 'no-witness', severity: 'note', message: words('no-witness') };
}

interface Known {
  readonly entry: TerminationEntry;
  readonly deviations: readonly Deviation[];
}

/** Of each comparison, with what was entered at that time; another numbering of the board makes other comparisons. */
const known = new WeakMap<Compared, Known>();
const NOTHING: TerminationEntry = {};

function deviationsAt(
  compared: Compared,
  entry: TerminationEntry = NOTHING,
  board?: BoardNumbering,
): readonly Deviation[] {
  const before = known.get(compared);
  if (before?.entry === entry) return before.deviations;
  const { id, panel } = compared.termination;
  const deviations = [...ofTermination(compared, entry, board)].map((d) => ({
    ...d,
    id: `${id}:${d.code}`,
    termination: id,
    panel,
  }));
  known.set(compared, { entry, deviations });
  return deviations;
}

const roleCode = (role: string): string => `identify.role.${role.replaceAll(' ', '-')}`;

/** Findings of the photos that have a place, each once; notes are left to the photo's own screen. */
function* ofPhotos(compared: readonly Compared[]): Generator<Deviation> {
  const seen = new Set<string>();
  for (const { sight, termination } of compared) {
    if (sight.kind === 'no photo' || seen.has(sight.photo.id)) continue;
    seen.add(sight.photo.id);
    for (const finding of sight.photo.findings.map.findings) {
      if (finding.severity === 'note') continue;
      yield {
        id: `${sight.photo.id}:${finding.code}:${finding.conductors.join('+')}`,
        code: 'finding',
        severity: finding.severity,
        termination: null,
        panel: termination.panel,
        message: finding.message,
      };
    }
  }
}

/**
 * Everything that is not as it should be, worst first, then in the order of the schedule. Never kept; what
 * was said of a deviation is kept under its id. `board`: how the site's boards are numbered, where not as usual.
 */
export function deviationsOf(
  compared: readonly Compared[],
  turnover: Turnover,
  faults: readonly RowFault[],
  board?: BoardNumbering,
): readonly Deviation[] {
  const panels = new Map(turnover.lines.map((line) => [line.id, line.cells.panel ?? '']));
  const all: Deviation[] = [
    ...compared.flatMap((c) => deviationsAt(c, turnover.entries[c.termination.id], board)),
    ...ofPhotos(compared),
    ...faults.map(({ line, row, message: what }) => ({
      id: `${line}:schedule:${what.code}`,
      code: 'schedule',
      severity: 'note' as const,
      termination: null,
      panel: panels.get(line) ?? '',
      message: what,
      ...(row === null ? {} : { row }),
    })),
  ];
  return ORDER.flatMap((severity) => all.filter((d) => d.severity === severity));
}
