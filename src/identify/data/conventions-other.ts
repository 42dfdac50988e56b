import type { Convention } from '../convention';
import type { Jurisdiction } from '../system';
import { type Authority, lines, PRACTICE, type RoleLooks, rule } from './build';

const page = (source: string): Authority => ({ force: PRACTICE, source, status: 'read' });
const quoted = (section: string, edition: string, source: string): Authority => ({
  force: rule(section, edition),
  source,
  status: 'read',
});

const CEC = quoted(
  '4-036 (4-038 in later editions)',
  'CEC Part I',
  'electrical-contractor.net topic 101606 (text of rule 4-036)',
);
const CEC_N = quoted('4-028 (older numbering)', 'CEC Part I', 'edmontonchina.ca thread 408370 (text of rule 4-028)');
const CEC_HIGH = quoted('4-036(4)', 'CEC Part I', 'electrical-contractor.net topic 101606');
const BY_COUNTRY = page('vertex.ppsstudios.com/tag/standards (colors by country)');
const IEC_60445 = quoted(
  '6.2.2, 6.2.3',
  'IEC 60445',
  'standard-codes.com iec-60445-pdf; the note says that no order is implied',
);
const HD_308 = page('HD 308 S2 order as given by en.wikipedia.org/wiki/IEC_60446');
const IEC_PE = quoted('6.3.2', 'IEC 60445:2010', 'mealir.com');
const IEC_DC = quoted('6.2.4, 6.2.5', 'IEC 60445:2017', 'standard-codes.com iec-60445-pdf');
const EN_60204 = quoted('13.2', 'EN 60204-1', 'docs.calculus.group; kontrolkalemi.com thread 7836 (extracts)');
const BS_NEW = quoted('Table 51', 'BS 7671:2004 amendment 2', 'flipbuilder.com hzzr/jtap page 6; sunpower-uk.com');
const BS_OLD = quoted('Table 51', 'BS 7671 before 2004', 'flipbuilder.com hzzr/jtap page 6');
const BS_DC = quoted('Table 51', 'BS 7671:2018 amendment 2', 'engx.theiet.org thread 23529');
const BS_DC_OLD = quoted('Table 51', 'BS 7671 2004 to 2022', 'electrical-contractor.net posts 148736');
const AU_NEW = page(
  'lceelectricalservices.com.au; contradicts the fixed-wiring rule against black actives, unverified',
);
const CN = page('armoured-cable.net; wwtsg.cn (cites GB 2681)');
const IN = page('cablepriceindia.com wire-color-code-india (IS 732)');
const JP = page('shiuntenlos.ie-yasu.com eema0030; ja9yx.jimdofree.com');

const N = 'grounded conductor';
const PE = 'equipment grounding conductor';
const WHITE_CA: RoleLooks = { [N]: ['white', 'gray', ['white', 'distinctive']] };
const GREEN_CA: RoleLooks = { [PE]: ['green', 'bare', 'green-yellow'] };
const GNYE: RoleLooks = { [PE]: ['green-yellow'] };
const ANY_LINE: RoleLooks = {
  'phase A': ['brown', 'black', 'gray'],
  'phase B': ['brown', 'black', 'gray'],
  'phase C': ['brown', 'black', 'gray'],
};
const BROWN_BLACK_GRAY: RoleLooks = { 'phase A': ['brown'], 'phase B': ['black'], 'phase C': ['gray'] };
const RED_YELLOW_BLUE: RoleLooks = { 'phase A': ['red'], 'phase B': ['yellow'], 'phase C': ['blue'], [N]: ['black'] };

const of =
  (jurisdiction: Jurisdiction) =>
  (system: string, authority: Authority, looks: RoleLooks, scheme: Convention['scheme'] = 'habit', anyOf = false) =>
    lines(jurisdiction, system, scheme, authority, looks, anyOf);
const ca = of('CA');
const iec = of('IEC');
const uk = of('UK');
const au = of('AU');
const cn = of('CN');
const ind = of('IN');
const jp = of('JP');

/** Canada, IEC and Europe, United Kingdom, Australia and New Zealand, China, India, Japan. */
export const OTHER_CONVENTIONS: readonly Convention[] = [
  ...['ca-120-240-1ph', 'ca-208y120', 'ca-600y347', 'ca-240-120-high-leg'].flatMap((id) => [
    ...ca(id, CEC_N, WHITE_CA),
    ...ca(id, CEC, GREEN_CA),
  ]),
  ...ca('ca-120-240-1ph', CEC, { 'line 1': ['black'], 'line 2': ['red'] }),
  ...['ca-208y120', 'ca-600y347'].flatMap((id) =>
    ca(id, CEC, { 'phase A': ['red'], 'phase B': ['black'], 'phase C': ['blue'] }),
  ),
  ...ca('ca-240-120-high-leg', CEC_HIGH, { 'high leg': ['red'], 'phase B': ['black'], 'phase C': ['blue'] }),
  ...ca('ca-isolated', BY_COUNTRY, {
    'isolated conductor 1': ['orange'],
    'isolated conductor 2': ['brown'],
    'isolated conductor 3': ['yellow'],
    [PE]: ['green', 'bare', 'green-yellow'],
  }),
  ...ca(
    'ca-switch-legs',
    { force: PRACTICE, source: 'trade habit', status: 'from memory' },
    { 'switch leg': ['red', 'black', 'blue', 'yellow'], traveler: ['red', 'black', 'blue', 'yellow'] },
    'habit',
    true,
  ),

  ...['iec-230-400', 'iec-230-1ph'].flatMap((id) => [
    ...iec(id, IEC_60445, { [N]: ['blue'] }),
    ...iec(id, IEC_PE, GNYE),
  ]),
  ...iec('iec-230-400', HD_308, BROWN_BLACK_GRAY),
  ...iec('iec-230-400', IEC_60445, ANY_LINE, 'no order', true),
  ...iec('iec-230-1ph', IEC_60445, { 'line 1': ['brown', 'black', 'gray'] }),
  ...iec('iec-dc', IEC_DC, { positive: ['red'], negative: ['white'], [N]: ['blue'] }),
  ...iec('iec-dc', IEC_PE, GNYE),
  // Red AC control, blue DC control, orange circuits that stay live with the main switch off.
  ...iec('iec-machine', EN_60204, { control: ['red', 'blue', 'orange'] }, 'habit', true),

  ...['uk-230-400', 'uk-230-1ph'].flatMap((id) => uk(id, BS_NEW, { [N]: ['blue'], [PE]: ['green-yellow'] })),
  ...uk('uk-230-400', BS_NEW, BROWN_BLACK_GRAY),
  ...uk('uk-230-1ph', BS_NEW, { 'line 1': ['brown'] }),
  ...uk('uk-pre-2004-3ph', BS_OLD, { ...RED_YELLOW_BLUE, [PE]: ['green-yellow', 'green', 'bare'] }),
  ...uk('uk-pre-2004-1ph', BS_OLD, { 'line 1': ['red'], [N]: ['black'], [PE]: ['green-yellow', 'green', 'bare'] }),
  ...uk('uk-dc', BS_DC, { positive: ['red'], negative: ['white'], [PE]: ['green-yellow'] }),
  ...uk('uk-dc-pre-2022', BS_DC_OLD, {
    positive: ['brown'],
    negative: ['gray'],
    [N]: ['blue'],
    [PE]: ['green-yellow'],
  }),

  ...au('au-traditional-3ph', BY_COUNTRY, {
    'phase A': ['red'],
    'phase B': ['white'],
    'phase C': ['blue'],
    [N]: ['black'],
    [PE]: ['green-yellow', 'green'],
  }),
  ...au('au-harmonized-3ph', AU_NEW, { ...BROWN_BLACK_GRAY, [N]: ['blue'], ...GNYE }),

  ...cn('cn-220-380', CN, {
    'phase A': ['yellow'],
    'phase B': ['green'],
    'phase C': ['red'],
    [N]: ['blue'],
    [PE]: ['green-yellow'],
  }),
  ...ind('in-230-400', IN, { ...RED_YELLOW_BLUE, [PE]: ['green', 'green-yellow'] }),

  ...jp('jp-100-200-1ph', JP, {
    'line 1': ['red'],
    'line 2': ['black'],
    [N]: ['white'],
    [PE]: ['green', 'green-yellow'],
  }),
  ...jp('jp-200-3ph', JP, { 'phase A': ['red'], 'phase C': ['blue'], [N]: ['white'], [PE]: ['green', 'green-yellow'] }),
  ...jp('jp-3ph4w', JP, {
    'phase A': ['red'],
    'phase B': ['black'],
    'phase C': ['blue'],
    [N]: ['white'],
    [PE]: ['green', 'green-yellow'],
  }),
  ...jp('jp-dc', JP, { positive: ['red'], negative: ['blue'], [PE]: ['green', 'green-yellow'] }),
];
