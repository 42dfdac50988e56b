import type { NamedConductor } from '../../../src/flow';
import { identify } from '../../../src/identify';
import { posterior } from '../../../src/identify/infer/posterior';
import { makeUnits } from '../../../src/identify/infer/units';
import { readEvidence } from '../../../src/identify/model/evidence';
import { conductor, site } from '../make';
import { random } from '../random';
import { type Answer, ece, eceOfBounds, overclaimed, play, score } from './score';
import { BY_TAG, SCENARIOS } from './sites';

/** `npm run measure:identify -- [sites per scenario, 200] [seed, 1]`. Prints Markdown tables; same numbers every time but for times. */
const sites = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);

const percent = (x: number): string => (Number.isNaN(x) ? '-' : `${(100 * x).toFixed(1)}`);

console.log(
  '| scenario | conductors | top-1 | mean p | ECE | of it claimed too much | ECE, ceilings as bounds | p > 0.9 | of all, p > 0.9 and wrong | color decides | right there | one role in the table of the true systems | right there | highest p where that table gives two | refused rightly elsewhere | highest p elsewhere | 95 % set covers (size) |',
);
console.log(`|${' --- |'.repeat(17)}`);
const print = (name: string, list: readonly Answer[]): void => {
  const s = score(list);
  const cells = [
    s.conductors,
    percent(s.accuracy),
    percent(s.meanProbability),
    percent(s.ece),
    percent(s.overclaimed),
    percent(s.eceOfBounds),
    percent(s.sure),
    percent(s.sureAndWrong),
    percent(s.decidedShare),
    percent(s.decidedRight),
    percent(s.siteDecidedShare),
    percent(s.siteDecidedRight),
    s.highestSiteUndecided.toFixed(3),
    percent(s.refusedRightly),
    s.highestUndecided.toFixed(3),
    `${percent(s.setCovers)} (${s.meanSetSize.toFixed(2)})`,
  ];
  console.log(`| ${name} | ${cells.join(' | ')} |`);
};
const played = SCENARIOS.map((scenario, k) => {
  const list = play(scenario, sites, seed + 1000 * k);
  print(scenario.name, list);
  return { ...scenario, list };
});

console.log(
  '\n| mixed population: sites whose phases color does not tell | top-1 | ECE | of it claimed too much | ECE, ceilings as bounds | ECE, answers at ceilings left out | at a ceiling | of all, p > 0.9 and wrong |',
);
console.log(`|${' --- |'.repeat(8)}`);
const usual = SCENARIOS.reduce((sum, s) => sum + (s.name === BY_TAG ? 0 : s.share), 0);
for (const byTag of [4, 8, 12]) {
  const weights = new Map<Answer, number>();
  for (const { name, share, list } of played) {
    const part = name === BY_TAG ? byTag : (share * (100 - byTag)) / usual;
    for (const a of list) weights.set(a, part / list.length);
  }
  const weight = (a: Answer): number => weights.get(a) ?? 0;
  const all = [...weights.keys()];
  const whole = all.reduce((sum, a) => sum + weight(a), 0);
  const shareOf = (test: (a: Answer) => boolean): number =>
    all.reduce((sum, a) => sum + (test(a) ? weight(a) : 0), 0) / whole;
  const cells = [
    shareOf((a) => a.right),
    ece(all, weight),
    overclaimed(all, weight),
    eceOfBounds(all, weight),
    ece(
      all.filter((a) => !a.atCeiling),
      weight,
    ),
    shareOf((a) => a.atCeiling),
    shareOf((a) => a.probability > 0.9 && !a.right),
  ];
  console.log(`| ${byTag} % | ${cells.map(percent).join(' | ')} |`);
}

function crowd(n: number): NamedConductor[] {
  const r = random(seed + n);
  const colors = ['black', 'red', 'blue', 'white', 'green', 'brown', 'orange', 'yellow', 'gray'] as const;
  return Array.from({ length: n }, (_, i) => {
    const p = 0.7 + 0.3 * r.next();
    return conductor(`c${i}`, { [r.pick(colors)]: p });
  });
}

console.log('\n| conductors | median ms | worst ms | CPU ms | skipped share | gap to exact |');
console.log('| --- | --- | --- | --- | --- | --- |');
for (const n of [6, 12, 40, 120]) {
  const cs = crowd(n);
  identify(cs, site());
  const cpu = process.cpuUsage().user;
  const times = Array.from({ length: 9 }, () => {
    const start = performance.now();
    identify(cs, site());
    return performance.now() - start;
  }).sort((a, b) => a - b);
  const cpuMs = (process.cpuUsage().user - cpu) / 9000;
  const sorted = [...cs].sort((a, b) => (a.id < b.id ? -1 : 1));
  const evidence = sorted.map(readEvidence);
  const units = makeUnits(
    sorted.map((c) => c.id),
    site(),
  );
  const usual = posterior(evidence, site(), units);
  const exact = posterior(evidence, site(), units, { skip: 0, singleSetLimit: Math.min(n, 24) });
  let gap = 0;
  usual.roles.forEach((p, i) => {
    gap = Math.max(gap, Math.abs(p - exact.roles[i]!));
  });
  console.log(
    `| ${n} | ${times[4]!.toFixed(0)} | ${times[8]!.toFixed(0)} | ${cpuMs.toFixed(0)} | ${usual.skipped.toExponential(1)} | ${gap.toExponential(1)} |`,
  );
}
