import { type Acknowledgement, type Message, message } from '../flow';

/** When a step has to be acknowledged. */
export type StepMoment = 'before any reading' | 'before anything is lifted' | 'caution';

export interface SafetyStep {
  readonly id: string;
  readonly moment: StepMoment;
  readonly text: Message;
  readonly status: 'read' | 'from memory' | 'common practice, no source';
  readonly source: string;
}

const DOE = 'DOE electrical safety handbook 2.13.2.1 (page tpub.com/doeelecsafety/electricalsafety14.htm)';
const NFPA = 'NFPA 70E 120.5 (2021/2024 order), from memory';
const ABSENCE = 'NFPA 70E 120.5 step 7 (pages brainfiller.com, digikey tutorial 2017)';
const CAT = 'IEC 61010-1 / 61010-2-030 (pages manualshive.com, hioki.com FAQ 67430)';

const step = (id: string, moment: StepMoment, status: SafetyStep['status'], source: string): SafetyStep => ({
  id,
  moment,
  text: message(`verify.step.${id}`),
  status,
  source,
});

/**
 * What must be acknowledged, per job and in this order, before a reading is asked for and before anything is
 * lifted. The tool does not check any of it; it only refuses to plan without the user's word. Local codes and the
 * employer's rules go before every line.
 */
export const SAFETY_STEPS: readonly SafetyStep[] = [
  step('qualified', 'before any reading', 'read', DOE),
  step('local-rules', 'before any reading', 'common practice, no source', 'NEC is law only as adopted where you are'),
  step(
    'off-first',
    'before any reading',
    'read',
    '29 CFR 1910.333(a)(1) (page 70esafety.com/osha-electrical-training)',
  ),
  step('gear', 'before any reading', 'common practice, no source', 'common practice'),
  step('rated-meter', 'before any reading', 'read', CAT),
  step('leads', 'before any reading', 'common practice, no source', 'common practice'),
  step(
    'ppe',
    'before any reading',
    'read',
    'pages digikey tutorial 2017, legalclarity.org (treat as energized until proven)',
  ),
  step('known-source', 'before any reading', 'read', ABSENCE),
  step('find-sources', 'before anything is lifted', 'from memory', NFPA),
  step('open-each', 'before anything is lifted', 'from memory', NFPA),
  step('see-blades', 'before anything is lifted', 'from memory', NFPA),
  step('stored', 'before anything is lifted', 'from memory', NFPA),
  step('stored-other', 'before anything is lifted', 'from memory', NFPA),
  step('lockout', 'before anything is lifted', 'from memory', NFPA),
  step('prove-before', 'before anything is lifted', 'read', ABSENCE),
  step('absence', 'before anything is lifted', 'read', ABSENCE),
  step('prove-after', 'before anything is lifted', 'read', ABSENCE),
  step('grounding', 'before anything is lifted', 'from memory', NFPA),
  step('no-proximity', 'caution', 'read', DOE),
  step('ghost', 'caution', 'read', 'pages experts123.com, memberarea.ecawa.org.au, fasttraxsystem.com (safety.json)'),
  step('back-feed', 'caution', 'read', '29 CFR 1910.333(b)(2)(iv)(B), same content in the DOE handbook'),
];

/**
 * Steps of a moment that nobody has acknowledged for this job yet, in order. A step counts only after all before it:
 * one confirmed before an earlier one (a test for absence before the tester was proved) is asked for again.
 */
export function unacknowledged(
  moment: StepMoment,
  acknowledgements: readonly Acknowledgement[],
): readonly SafetyStep[] {
  const at = new Map(acknowledgements.filter((a) => a.by.trim() !== '').map((a) => [a.step, Date.parse(a.at)]));
  const steps = SAFETY_STEPS.filter((s) => s.moment === moment);
  let latest = Number.NEGATIVE_INFINITY;
  const first = steps.findIndex(({ id }) => {
    const time = at.get(id);
    if (time === undefined || !(time >= latest)) return true;
    latest = time;
    return false;
  });
  return first < 0 ? [] : steps.slice(first);
}
