import type { Convention } from '../convention';
import { type Authority, lines, PRACTICE, type RoleLooks, rule } from './build';

const CODE_TEXT = 'California Electrical Code 2022, which adopts the 2020 NEC';
const NEC = 'NEC 2020';

const HABIT: Authority = {
  force: PRACTICE,
  source: 'mikeholt.com videodisplaynew pageid 2892 (comment on NEC 2005 210.5); ecmweb.com article 55332007',
  status: 'read',
};
const DELTA_480: Authority = { ...HABIT, source: 'vertex.ppsstudios.com/tag/standards (colors by country)' };
const GROUNDED: Authority = { force: rule('200.6(A), 200.6(B)', NEC), source: `${CODE_TEXT}, 200.6`, status: 'read' };
const GROUNDING: Authority = { force: rule('250.119', NEC), source: `${CODE_TEXT}, 250.119`, status: 'read' };
const HIGH_LEG: Authority = {
  force: rule('110.15, 230.56, 408.3(E)(1)', NEC),
  source: `${CODE_TEXT}, 110.15, 230.56, 408.3(E)(1)`,
  status: 'read',
};
const MEMORY: Authority = { force: PRACTICE, source: 'trade habit', status: 'from memory' };
const NO_SOURCE: Authority = { force: PRACTICE, source: 'trade habit', status: 'common practice, no source' };
const ORDINANCE: Authority = {
  force: { kind: 'local', place: 'San Marcos, Texas' },
  source: 'weblink.sanmarcostx.gov WebLink doc 300069 page 41 (city ordinance)',
  status: 'read',
};
const ISOLATED: Authority = {
  force: rule('517.160(A)(5)', 'NEC 2017'),
  source: 'NEC 2017 chapter 5, 517.160(A)(5) (repository mjk83093/sil)',
  status: 'read',
};
const DC: Authority = {
  force: rule('210.5(C)(2), 215.12(C)(2)', NEC),
  source: `${CODE_TEXT}, chapter 2`,
  status: 'read',
};
const ISOLATED_GROUND: Authority = {
  force: PRACTICE,
  source: 'stripe by trade habit; the conductor itself by NEC 250.146(D)',
  status: 'from memory',
};
const SWITCHING: Authority = {
  force: PRACTICE,
  source: 'forums.mikeholt.com 3-way-traveler-color-coding.105174; electriciantalk.com switch legs and travelers',
  status: 'read',
};

const WHITE: RoleLooks = { 'grounded conductor': ['white', 'gray', ['white', 'distinctive']] };
const GRAY: RoleLooks = { 'grounded conductor': ['gray', 'white', ['white', 'distinctive']] };
const GREEN: RoleLooks = { 'equipment grounding conductor': ['green', 'bare', 'green-yellow'] };

const us = (system: string, scheme: Convention['scheme'], authority: Authority, looks: RoleLooks, anyOf = false) =>
  lines('US', system, scheme, authority, looks, anyOf);

const GREEN_FOR = [
  'us-120-240-1ph',
  'us-208y120',
  'us-480y277',
  'us-240-120-high-leg',
  'us-240-delta',
  'us-480-delta',
  'us-240-corner',
  'us-480-corner',
  'us-isolated-power',
  'us-dc',
  'us-pv-dc',
];

/** United States. Phase colors are habit, not code; white, gray and green are code. */
export const US_CONVENTIONS: readonly Convention[] = [
  ...GREEN_FOR.flatMap((id) => us(id, 'habit', GROUNDING, GREEN)),
  ...['us-120-240-1ph', 'us-208y120', 'us-240-120-high-leg', 'us-240-corner'].flatMap((id) =>
    us(id, 'habit', GROUNDED, WHITE),
  ),
  ...['us-480y277', 'us-480-corner'].flatMap((id) => us(id, 'habit', GROUNDED, GRAY)),

  ...us('us-120-240-1ph', 'habit', HABIT, { 'line 1': ['black'], 'line 2': ['red'] }),
  // Two-wire cable has black and white only, whatever line it lands on; red comes with three-wire cable, which is rarer.
  ...us('us-120-240-1ph', 'cable work', NO_SOURCE, { 'line 1': ['black', 'red'], 'line 2': ['black', 'red'] }),
  ...us('us-120-240-1ph', 'local A red', ORDINANCE, { 'line 1': ['red'], 'line 2': ['black'] }),

  ...us('us-208y120', 'habit', HABIT, { 'phase A': ['black'], 'phase B': ['red'], 'phase C': ['blue'] }),
  ...us('us-208y120', 'local A red', ORDINANCE, { 'phase A': ['red'], 'phase B': ['black'], 'phase C': ['blue'] }),

  ...us('us-480y277', 'habit', HABIT, { 'phase A': ['brown'], 'phase B': ['orange'], 'phase C': ['yellow'] }),
  ...us('us-480y277', 'violet for B', HABIT, { 'phase A': ['brown'], 'phase B': ['violet'], 'phase C': ['yellow'] }),
  ...us('us-480y277', 'local A red', ORDINANCE, {
    'phase A': ['brown'],
    'phase B': ['yellow'],
    'phase C': ['violet'],
    'grounded conductor': ['gray', ['white', 'distinctive']],
  }),

  ...us('us-240-120-high-leg', 'habit', HIGH_LEG, { 'high leg': ['orange'] }),
  ...us('us-240-120-high-leg', 'habit', HABIT, { 'phase A': ['black'], 'phase C': ['blue'] }),
  ...us('us-240-120-high-leg', 'red for C', MEMORY, { 'phase A': ['black'], 'phase C': ['red'] }),
  ...us('us-240-120-high-leg', 'local A red', ORDINANCE, { 'phase A': ['red'], 'phase C': ['black'] }),
  // Before the 1971 edition asked for orange, red stood for the high leg in some areas.
  ...us(
    'us-240-120-high-leg',
    'red high leg',
    { ...HABIT, source: 'copy of an encyclopaedia article on electrical wiring (amansaja.com)' },
    { 'high leg': ['red'], 'phase A': ['black'], 'phase C': ['blue'] },
  ),

  ...us('us-240-delta', 'habit', MEMORY, { 'phase A': ['black'], 'phase B': ['red'], 'phase C': ['blue'] }),
  ...us('us-480-delta', 'habit', DELTA_480, { 'phase A': ['brown'], 'phase B': ['orange'], 'phase C': ['yellow'] }),
  ...us('us-480-delta', 'local A red', ORDINANCE, {
    'phase A': ['brown'],
    'phase B': ['yellow'],
    'phase C': ['violet'],
  }),
  ...us('us-240-corner', 'habit', MEMORY, { 'phase A': ['black'], 'phase C': ['blue'] }),
  ...us('us-240-corner', 'red for C', MEMORY, { 'phase A': ['black'], 'phase C': ['red'] }),
  ...us('us-480-corner', 'habit', MEMORY, { 'phase A': ['brown'], 'phase C': ['yellow'] }),

  ...us('us-isolated-power', 'habit', ISOLATED, {
    'isolated conductor 1': [['orange', 'distinctive']],
    'isolated conductor 2': [['brown', 'distinctive']],
    'isolated conductor 3': [['yellow', 'distinctive']],
  }),
  // The stripe came after the 2008 edition; older work is plain.
  ...us(
    'us-isolated-power',
    'without stripes',
    { ...MEMORY, source: 'work under NEC 2008 and earlier' },
    { 'isolated conductor 1': ['orange'], 'isolated conductor 2': ['brown'], 'isolated conductor 3': ['yellow'] },
  ),

  ...us('us-dc', 'habit', DC, {
    positive: ['red', ['blue', 'red'], ['brown', 'red']],
    negative: ['black', ['blue', 'black'], ['brown', 'black']],
  }),
  ...us(
    'us-pv-dc',
    'habit',
    { force: rule('690.31(B)(1)', NEC), source: `${CODE_TEXT}, 690.31(B)(1); names no colors`, status: 'from memory' },
    { positive: ['red', 'black'], negative: ['black'] },
  ),

  ...us('us-switch-legs', 'habit', SWITCHING, {
    'switch leg': ['red', 'black', 'blue', 'yellow', 'violet', 'pink', 'orange', 'brown'],
    traveler: ['red', 'black', 'blue', 'violet', 'yellow', 'pink', 'orange'],
  }),
  // Cable has no other colors to give them: black in two-wire cable, black and red in three-wire cable.
  ...us(
    'us-switch-legs',
    'cable work',
    NO_SOURCE,
    { 'switch leg': ['black', 'red'], traveler: ['black', 'red'] },
    true,
  ),
  // NEC 250.146(D) lets a receptacle be grounded by a conductor of its own, which then runs apart from the ordinary one;
  // NEC 250.119 allows green with yellow stripes for any of them, so that the stripe is practice and no proof.
  ...us('us-isolated-ground', 'habit', ISOLATED_GROUND, { 'isolated ground': ['green-yellow'] }),
  ...us('us-control', 'habit', MEMORY, {
    control: ['red', 'blue', 'black', 'violet', 'pink', 'yellow', 'orange', 'brown', 'white', 'gray'],
  }),
  ...us('us-fire-alarm', 'habit', MEMORY, { control: ['red', 'black', 'blue', 'yellow'] }),
  ...us(
    'us-intrinsically-safe',
    'habit',
    { force: rule('504.80(C)', 'NEC 2017'), source: 'NEC 2017 chapter 5, 504.80(C)', status: 'read' },
    { control: ['blue'] },
  ),
];
