import type { Target } from '../target';
import { archive } from './archive';
import { words } from './command';
import { jobChanged, jobForged } from './job';
import { exifBlock, photoCut, photoFacts, photoPixels } from './photo';
import { pad, readings } from './readings';
import { schedule, tag } from './schedule';
import { legend, siteKnowledge } from './site';

/** Every way in, with its share of a hundred cases. */
export const TARGETS: readonly Target[] = [
  photoFacts,
  photoPixels,
  photoCut,
  exifBlock,
  jobChanged,
  jobForged,
  legend,
  siteKnowledge,
  readings,
  pad,
  schedule,
  tag,
  archive,
  words,
];
