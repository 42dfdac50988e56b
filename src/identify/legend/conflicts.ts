import { type Finding, type Message, message, type SiteLegendEntry } from '../../flow';
import { systemKey } from '../explain/list';
import { RULES, type Rule } from '../findings/rules';
import type { Jurisdiction } from '../system';

const look = (e: SiteLegendEntry): string => `${e.color}/${e.stripe ?? ''}`;
const GROUNDED = 'grounded conductor';
const GROUND = 'equipment grounding conductor';

function conflict(code: string, severity: Finding['severity'], rule: Rule, values: Message['values']): Finding {
  return { code, severity, message: message(`identify.finding.${code}`, values), conductors: [], ...rule };
}

/** What a posted legend itself does wrong: pairs of its lines, and single lines with a forbidden color. */
export function legendFindings(legend: readonly SiteLegendEntry[], jurisdiction: Jurisdiction): Finding[] {
  const out: Finding[] = [];
  const said = new Set<string>();
  const add = (f: Finding): void => {
    const key = JSON.stringify(f.message);
    if (!said.has(key)) out.push(f);
    said.add(key);
  };
  const american = jurisdiction === 'US' || jurisdiction === 'CA';
  legend.forEach((a, i) => {
    if (american) lineFindings(a).forEach(add);
    for (const b of legend.slice(i + 1)) pairFindings(a, b, american).forEach(add);
  });
  return out;
}

function lineFindings(e: SiteLegendEntry): Finding[] {
  if (e.role === GROUND || e.role === 'isolated ground' || e.role === 'control') return [];
  if (e.color === 'green' || e.color === 'green-yellow') {
    return [conflict('legend-green', 'violation', RULES.grounding, { role: e.role })];
  }
  if (e.role !== GROUNDED && (e.color === 'white' || e.color === 'gray') && e.system !== 'us-dc' && !e.stripe) {
    return [conflict('legend-white', 'violation', RULES.whiteAsHot, { role: e.role, color: e.color })];
  }
  if (e.system === 'us-240-120-high-leg' && e.role === 'high leg' && e.color !== 'orange') {
    return [conflict('legend-high-leg', 'violation', RULES.highLegOrange, { color: e.color })];
  }
  if (e.role.startsWith('isolated conductor') && e.system.startsWith('us-') && !e.stripe) {
    return [conflict('legend-isolated', 'violation', RULES.isolatedStripe, { role: e.role })];
  }
  return [];
}

function pairFindings(a: SiteLegendEntry, b: SiteLegendEntry, american: boolean): Finding[] {
  const values = { color: a.color, a: systemKey(a.system), b: systemKey(b.system) };
  if (a.system === b.system) {
    if (a.role === b.role && look(a) !== look(b)) {
      return [conflict('legend-two-colors', 'warning', RULES.practice, { role: a.role, a: a.color, b: b.color })];
    }
    if (a.role !== b.role && look(a) === look(b)) {
      return [conflict('legend-two-roles', 'violation', RULES.systemsApart, { color: a.color, a: a.role, b: b.role })];
    }
    return [];
  }
  if (!american || look(a) !== look(b) || a.role === GROUND || b.role === GROUND) return [];
  return a.role === GROUNDED && b.role === GROUNDED
    ? [conflict('legend-neutrals-alike', 'violation', RULES.neutralsApart, values)]
    : [conflict('legend-systems-alike', 'violation', RULES.systemsApart, values)];
}
