import { message } from '../../flow';
import { SYSTEMS } from '../data/systems';
import { systemKey } from '../explain/list';
import { SURE } from '../explain/read';
import { legendFindings } from '../legend/conflicts';
import { RULES } from './rules';
import { type Finder, finding, insulated, isUngrounded, LIKELY, likelySystems } from './scene';

/** Systems that the user named and this program does not know. */
export const unknownSystems: Finder = ({ knowledge }) =>
  knowledge.systems
    .filter((id) => !SYSTEMS[id])
    .map((id) => ({
      code: 'unknown-system',
      severity: 'note',
      message: message('identify.finding.unknown-system', { id }),
      conductors: [],
    }));

export const legendConflicts: Finder = ({ knowledge }) => legendFindings(knowledge.legend, knowledge.jurisdiction);

/** Fewer insulated conductors than a system of three phases has lines are no set. */
const LEAST_OF_A_SET = 3;

/** Sets of one system, tied by the user, that wear other colors than the first: if they run in parallel, they must not. */
export const setsWornDifferently: Finder = ({ seen, knowledge, found }) => {
  const mains = likelySystems({ found });
  const [only] = mains;
  if (mains.length !== 1 || !only) return [];
  const sets = knowledge.groups
    .filter((group) => group.kind === 'cable' || group.kind === 'circuit')
    .map((group) => seen.filter((s) => insulated(s) && group.conductors.includes(s.conductor.id)))
    .filter((set) => set.length >= LEAST_OF_A_SET && set.every((s) => s.tape || s.sure >= SURE));
  const worn = (set: typeof seen): string =>
    set
      .map((s) => s.tape ?? s.color)
      .sort()
      .join(' ');
  const [first, ...others] = sets;
  if (!first) return [];
  const odd = others.filter((set) => set.length === first.length && worn(set) !== worn(first));
  if (odd.length === 0) return [];
  return [
    finding(
      'sets-worn-differently',
      'warning',
      odd.flat().map((s) => s.conductor),
      RULES.parallel,
      { system: systemKey(only) },
    ),
  ];
};

/** Several conductors per phase, and not the same number of each. */
export const parallelSets: Finder = ({ seen, knowledge, found }) => {
  const mains = likelySystems({ found });
  const [only] = mains;
  if (mains.length !== 1 || !only || Object.keys(knowledge.spaces).length > 0 || knowledge.groups.length > 0) return [];
  const roles = (SYSTEMS[only]?.roles ?? []).filter((r) => r.startsWith('phase') || r === 'high leg');
  if (roles.length < 3) return [];
  const counts = roles.map(
    (role) => seen.filter((s) => isUngrounded(s) && s.role === role && s.roleProbability >= LIKELY).length,
  );
  const least = Math.min(...counts);
  if (least < 2 || Math.max(...counts) === least) return [];
  return [finding('sets-differ', 'note', [], RULES.parallel, { counts: counts.join(', '), system: systemKey(only) })];
};
