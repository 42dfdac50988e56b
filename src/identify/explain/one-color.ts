import type { ColorName, SiteKnowledge, SystemId } from '../../flow';
import { auxiliaries, candidateMains } from '../infer/candidates';
import { habitColors } from './habits';
import { type Seen, SURE } from './read';

const GROUNDING: ReadonlySet<ColorName> = new Set(['green', 'green-yellow']);

/**
 * May any system be surer than color alone can make it? Not where the whole picture speaks through one color, bare and
 * grounding conductors aside, and more than one system wears it; nor where no color is sure. A stripe is more than a
 * color, and so is one of one system: these are left to the posterior.
 */
export function systemsOpen(all: readonly Seen[], knowledge: SiteKnowledge): boolean {
  const telling = all.filter((s) => s.conductor.covering !== 'bare' && (s.tape || !GROUNDING.has(s.color)));
  if (telling.length === 0 || telling.some((s) => s.stripe)) return false;
  const sure = new Set(telling.filter((s) => s.tape || s.sure >= SURE).map((s) => s.tape ?? s.color));
  if (sure.size > 1) return false;
  const [color] = sure;
  const candidates: readonly SystemId[] = [
    ...candidateMains(knowledge),
    ...auxiliaries(knowledge).map((a) => a.system),
  ];
  return color === undefined ? candidates.length > 1 : candidates.filter((id) => habitColors(id).has(color)).length > 1;
}
