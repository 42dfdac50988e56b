import { assess } from '../../../src/verify/assess';
import { planHypotheses } from '../../../src/verify/hypotheses';
import { expectedWork, type OrderProblem, orderChecks } from '../../../src/verify/order';
import type { Chance } from './chance';
import { leastWork, ORACLE_CHECKS } from './oracle';
import { METER, measure, readingOf } from './probe';
import { makeSite } from './site';

/** An ordering problem as the plan meets it: up to 8 conductors, some readings already in, at most 16 checks left. */
export function orderProblem(chance: Chance): OrderProblem | null {
  const site = makeSite(chance, { wrong: 'nothing', circuits: chance.next() < 0.4 ? 2 : 1 });
  if (site.wires.length > 8) return null;
  const { needs } = assess(site.map, [], { meter: METER });
  const live = chance.shuffled(needs.filter((n) => n.condition === undefined));
  const left = live.slice(0, ORACLE_CHECKS - Math.floor(chance.next() * 4));
  const made = live.slice(left.length);
  const readings = made.flatMap((n) => {
    const value = measure(n, site, chance);
    return value === null ? [] : [readingOf(n, value)];
  });
  const { belief, map } = assess(site.map, readings, { meter: METER });
  const hypotheses = planHypotheses(map, belief, left).map(({ probability, shows }) => ({ probability, shows }));
  return { checks: left, hypotheses, last: made.at(-1) ?? null };
}

/** How much more expected work the shipped order takes than the best there is, as a share; null: too large a site. */
export function regretOf(chance: Chance): number | null {
  const problem = orderProblem(chance);
  if (!problem) return null;
  const least = leastWork(problem);
  return least === 0 ? 0 : expectedWork(problem, orderChecks(problem)) / least - 1;
}
