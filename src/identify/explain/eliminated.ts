import { type ColorName, message, type PhaseMap, type SiteKnowledge } from '../../flow';
import { candidateMains } from '../infer/candidates';
import { circuitRoles } from '../infer/members';
import type { Posterior } from '../infer/posterior';
import { habitColors, usualColor } from './habits';
import { colorListMessage, systemKey } from './list';
import { type Seen, SURE } from './read';

/** Systems less probable than this count as ruled out. */
const OUT = 0.02;

/** Systems that the picture speaks against, and what in it does. */
export function eliminated(seen: readonly Seen[], found: Posterior, knowledge: SiteKnowledge): PhaseMap['eliminated'] {
  const present = [
    ...new Set(seen.filter((s) => s.sure >= SURE && s.conductor.covering !== 'bare').map((s) => s.color)),
  ];
  present.sort();
  return candidateMains(knowledge)
    .filter((id) => (found.systems.get(id) ?? 0) < OUT)
    .map((system) => {
      const values = { system: systemKey(system) };
      const habit = habitColors(system);
      const foreign = present.filter((c) => !habit.has(c));
      if (foreign.length > 0) return { system, why: colorListMessage('identify.eliminated.present', foreign, values) };
      const missing = [
        ...new Set(
          circuitRoles(system)
            .map((role) => usualColor(system, role))
            .filter((c): c is ColorName => c !== null && !present.includes(c)),
        ),
      ];
      if (missing.length > 0) return { system, why: colorListMessage('identify.eliminated.missing', missing, values) };
      return { system, why: message('identify.eliminated.less', values) };
    });
}
