import type { Finding, Severity } from '../../flow';
import { greenAsOther, tapes, undecidedColors, whiteAsHot } from './colors';
import { loadOnHighLeg, phaseOrder, sharedNeutral, tagsAgainst } from './panel';
import type { Finder, FindingScene } from './scene';
import { legendConflicts, parallelSets, setsWornDifferently, unknownSystems } from './site';
import {
  highLegColor,
  isolatedStripes,
  missing,
  neutralOfOther,
  noOrder,
  oldAndNew,
  phaseByTag,
  systemsAlike,
} from './systems';

const FINDERS: readonly Finder[] = [
  greenAsOther,
  sharedNeutral,
  loadOnHighLeg,
  oldAndNew,
  whiteAsHot,
  systemsAlike,
  neutralOfOther,
  highLegColor,
  isolatedStripes,
  phaseOrder,
  tagsAgainst,
  legendConflicts,
  tapes,
  parallelSets,
  setsWornDifferently,
  missing,
  noOrder,
  phaseByTag,
  undecidedColors,
  unknownSystems,
];

const RANK: Readonly<Record<Severity, number>> = { danger: 0, violation: 1, warning: 2, note: 3 };

/** All findings, worst first; among equals in the order of the list above, then by conductor. */
export const allFindings = (scene: FindingScene): Finding[] =>
  FINDERS.flatMap((find) => find(scene))
    .map((f, order) => ({ f, order }))
    .sort((a, b) => RANK[a.f.severity] - RANK[b.f.severity] || a.order - b.order)
    .map(({ f }) => f);
