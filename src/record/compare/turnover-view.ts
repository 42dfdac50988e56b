import {
  type BoardNumbering,
  type Comparison,
  type Deviation,
  EMPTY_TURNOVER,
  type Job,
  type Standing,
  type Turnover,
} from '../../flow';
import type { Standings } from '../conductor-table';
import { faultsOf, type RowFault, terminationsOf } from '../schedule';
import { type Compared, compareAgain } from './compare';
import { deviationsOf } from './deviations';
import { indexPlaces, sightOf } from './sight';

/** A turnover worked out: every termination compared, every deviation, and how many of each. */
export interface TurnoverView {
  readonly turnover: Turnover;
  readonly compared: readonly Compared[];
  readonly deviations: readonly Deviation[];
  readonly faults: readonly RowFault[];
  readonly counts: Readonly<Record<Comparison, number>>;
  /** Deviations that nobody has closed. */
  readonly open: number;
  readonly photos: number;
  /** How the site's boards are numbered, where not as usual. */
  readonly board?: BoardNumbering;
}

/**
 * Works out the turnover of a job. A conductor whose standing is not given is by color. What was found of a termination
 * is found again as the same object while nothing that it rests on has changed, so that an edit costs what it touches.
 */
export function viewTurnover(job: Job, standings: Standings = new Map()): TurnoverView {
  const turnover = job.turnover ?? EMPTY_TURNOVER;
  const { board } = job.site;
  const index = indexPlaces(job.photos, turnover);
  const standingOf = (photo: string, conductor: string): Standing =>
    standings.get(photo)?.find((v) => v.conductor === conductor)?.standing ?? 'by color';
  const compared = terminationsOf(turnover.lines, board).map((termination): Compared => {
    const sight = sightOf(termination, turnover, index);
    const standing = sight.kind === 'seen' ? standingOf(sight.photo.id, sight.conductor.id) : null;
    return compareAgain(termination, sight, standing);
  });
  const counts: Record<Comparison, number> = { match: 0, differs: 0, 'cannot tell': 0, missing: 0 };
  for (const { comparison } of compared) counts[comparison] += 1;
  const faults = faultsOf(turnover.lines, board);
  const deviations = deviationsOf(compared, turnover, faults, board);
  const open = deviations.filter((d) => !turnover.handled[d.id]?.closed).length;
  return { turnover, compared, deviations, faults, counts, open, photos: job.photos.length, ...(board && { board }) };
}
