import type { Explanation } from '../../../src/flow';
import type { Site, Wrong } from './site';

/** Catalogue codes under which a trouble counts as named. */
const CODES: Readonly<Record<Wrong, readonly string[]>> = {
  nothing: [],
  'swapped phases': ['verify.explain.swapped'],
  'reversed polarity': ['verify.explain.reversed-polarity'],
  'neutral and ground exchanged': ['verify.explain.reversed-polarity'],
  'other system': ['verify.explain.other-system'],
  disconnected: ['verify.explain.disconnected'],
  'open neutral': ['verify.explain.open-neutral'],
  'lost phase': ['verify.explain.back-feed'],
  'shared neutral': ['verify.explain.shared-neutral'],
  'ground fault': ['verify.explain.ground-fault'],
};

/** Does this explanation name the trouble of the site, the right conductor included? */
export function names(explanation: Explanation, site: Site): boolean {
  const { code, values } = explanation.message;
  if (!CODES[site.wrong].includes(code)) return false;
  if (site.wrong === 'other system') return values?.system === `identify.system.${site.supply.id}`;
  const faulty = site.wires.filter((w) => w.faulty).map((w) => w.id);
  if (faulty.length > 0) return faulty.includes(String(values?.conductor));
  return true;
}
