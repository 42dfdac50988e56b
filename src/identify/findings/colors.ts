import type { ColorName } from '../../flow';
import { SURE } from '../explain/read';
import { leavesBare } from '../model/tape-cover';
import { RULES } from './rules';
import { type Finder, finding, insulated, isGrounding, isUngrounded, LIKELY, northAmerica, onPole } from './scene';

const GROUNDED_COLORS = new Set<ColorName>(['white', 'gray']);

/** White or gray where an ungrounded conductor must be: without marking, and with marking whose form must be looked at. */
export const whiteAsHot: Finder = ({ seen, knowledge }) => {
  if (!northAmerica(knowledge)) return [];
  return seen.flatMap((s) => {
    if (!GROUNDED_COLORS.has(s.color) || s.sure < SURE || !insulated(s) || s.stripe) return [];
    const landed = onPole(s, knowledge);
    const believed = isUngrounded(s) && s.roleProbability >= LIKELY && s.role !== 'control';
    if (s.tape && !GROUNDED_COLORS.has(s.tape) && s.tape !== 'green') {
      return [finding('white-remarked', 'note', [s.conductor], RULES.whiteAsHot, { color: s.color, tape: s.tape })];
    }
    if (!s.tape && (landed || believed)) {
      return [
        finding('white-as-hot', landed ? 'violation' : 'warning', [s.conductor], RULES.whiteAsHot, { color: s.color }),
      ];
    }
    return [];
  });
};

/** Green or green-yellow as anything but equipment grounding. Plain green is a phase color in China. */
export const greenAsOther: Finder = ({ seen, knowledge }) =>
  seen.flatMap((s) => {
    const green = s.color === 'green-yellow' || (s.color === 'green' && knowledge.jurisdiction !== 'CN');
    if (!green || s.sure < SURE || !insulated(s)) return [];
    const other = !isGrounding(s) && s.role !== 'unassigned' && s.roleProbability >= LIKELY;
    if (!onPole(s, knowledge) && !other) return [];
    const rule = northAmerica(knowledge) ? RULES.grounding : RULES.protective;
    return [finding('green-as-other', 'danger', [s.conductor], rule, { color: s.color })];
  });

/**
 * Marking by tape: must encircle, which is broken where the seen side shows insulation beside it and open where it goes
 * over what can be seen; and two tapes that say different things.
 */
export const tapes: Finder = ({ seen, knowledge }) => {
  const taped = seen.filter((s) => s.tape !== null);
  const apart = taped.filter(
    (s) => new Set(s.conductor.tape.filter((t) => t.confidence >= SURE).map((t) => t.name)).size > 1,
  );
  const out = apart.map((s) => finding('tapes-disagree', 'warning', [s.conductor], RULES.practice));
  if (taped.length === 0 || !northAmerica(knowledge)) return out;
  const rule = {
    ...RULES.grounded,
    rule: `NEC 2020 200.6(B), 200.7(C)(1), 250.119; check the edition adopted locally`,
  };
  const short = taped.filter((s) => s.conductor.userWord?.tape === undefined && s.conductor.tape.every(leavesBare));
  const rest = taped.filter((s) => !short.includes(s));
  return [
    ...out,
    ...short.map((s) => finding('tape-not-encircling', 'violation', [s.conductor], rule, { color: s.tape ?? s.color })),
    ...(rest.length > 0
      ? [
          finding(
            'tape-must-encircle',
            'note',
            rest.map((s) => s.conductor),
            rule,
          ),
        ]
      : []),
  ];
};

/** A conductor whose color cannot be told from the photo. */
export const undecidedColors: Finder = ({ seen }) => {
  const unsure = seen.filter((s) => insulated(s) && s.sure < LIKELY && !s.tape);
  return unsure.length === 0
    ? []
    : [
        finding(
          'color-undecided',
          'note',
          unsure.map((s) => s.conductor),
          RULES.practice,
          { count: unsure.length },
        ),
      ];
};
