/** Words of the identify room: codes start with "identify.". */
export const IDENTIFY_WORDS = {
  'identify.system.us-120-240-1ph': '120/240 V single-phase three-wire',
  'identify.system.us-208y120': '208Y/120 V three-phase four-wire',
  'identify.system.us-480y277': '480Y/277 V three-phase four-wire',
  'identify.system.us-240-120-high-leg': '240/120 V delta with a high leg',
  'identify.system.us-240-delta': '240 V three-wire delta, ungrounded',
  'identify.system.us-480-delta': '480 V three-wire delta, ungrounded',
  'identify.system.us-240-corner': '240 V delta with a grounded corner',
  'identify.system.us-480-corner': '480 V delta with a grounded corner',
  'identify.system.us-isolated-power': 'isolated power (health care)',
  'identify.system.us-dc': 'DC supply',
  'identify.system.us-pv-dc': 'photovoltaic DC circuit',
  'identify.system.us-switch-legs': 'switch legs and travelers',
  'identify.system.us-isolated-ground': 'isolated grounds of receptacles',
  'identify.system.us-control': 'control wiring',
  'identify.system.us-fire-alarm': 'fire alarm wiring',
  'identify.system.us-intrinsically-safe': 'intrinsically safe circuit',
  'identify.system.ca-120-240-1ph': '120/240 V single-phase three-wire (Canada)',
  'identify.system.ca-208y120': '208Y/120 V three-phase four-wire (Canada)',
  'identify.system.ca-600y347': '600Y/347 V three-phase four-wire (Canada)',
  'identify.system.ca-240-120-high-leg': '240/120 V delta with a high leg (Canada)',
  'identify.system.ca-isolated': 'isolated system (Canada)',
  'identify.system.ca-switch-legs': 'switch legs and travelers (Canada)',
  'identify.system.iec-230-400': '230/400 V three-phase four-wire',
  'identify.system.iec-230-1ph': '230 V single-phase',
  'identify.system.iec-dc': 'DC supply (IEC colors)',
  'identify.system.iec-machine': 'machine control wiring (EN 60204-1 colors)',
  'identify.system.uk-230-400': '230/400 V three-phase, harmonized colors (UK)',
  'identify.system.uk-230-1ph': '230 V single-phase, harmonized colors (UK)',
  'identify.system.uk-pre-2004-3ph': '240/415 V three-phase, colors before 2004 (UK)',
  'identify.system.uk-pre-2004-1ph': '240 V single-phase, colors before 2004 (UK)',
  'identify.system.uk-dc': 'DC supply, colors since 2022 (UK)',
  'identify.system.uk-dc-pre-2022': 'DC supply, colors before 2022 (UK)',
  'identify.system.au-traditional-3ph': '230/400 V three-phase, traditional colors (AU/NZ)',
  'identify.system.au-harmonized-3ph': '230/400 V three-phase, harmonized colors (AU/NZ)',
  'identify.system.cn-220-380': '220/380 V three-phase four-wire (China)',
  'identify.system.in-230-400': '230/400 V three-phase four-wire (India)',
  'identify.system.jp-100-200-1ph': '100/200 V single-phase three-wire (Japan)',
  'identify.system.jp-200-3ph': '200 V three-phase three-wire, one phase grounded (Japan)',
  'identify.system.jp-3ph4w': 'three-phase four-wire (Japan)',
  'identify.system.jp-dc': 'DC supply (Japan)',
  'identify.system.unknown': 'no system named',

  'identify.role.phase-A': 'phase A',
  'identify.role.phase-B': 'phase B',
  'identify.role.phase-C': 'phase C',
  'identify.role.line-1': 'line 1',
  'identify.role.line-2': 'line 2',
  'identify.role.high-leg': 'high leg',
  'identify.role.grounded-conductor': 'grounded conductor (neutral)',
  'identify.role.equipment-grounding-conductor': 'equipment grounding conductor',
  'identify.role.isolated-ground': 'isolated equipment grounding conductor',
  'identify.role.isolated-conductor-1': 'isolated conductor 1',
  'identify.role.isolated-conductor-2': 'isolated conductor 2',
  'identify.role.isolated-conductor-3': 'isolated conductor 3',
  'identify.role.switch-leg': 'switch leg',
  'identify.role.traveler': 'traveler',
  'identify.role.control': 'control',
  'identify.role.positive': 'positive',
  'identify.role.negative': 'negative',
  'identify.role.unassigned': 'not assigned',

  'identify.because.color': 'It reads {color} ({percent} %), the habit for {role} of {system}.',
  'identify.because.color-odd': 'It reads {color} ({percent} %), which is not the habit for {role} of {system}.',
  'identify.because.stripe': 'It is {color} with a {stripe} stripe.',
  'identify.because.tape': 'It carries {tape} tape over {color} insulation; tape outranks insulation.',
  'identify.because.bare': 'It is bare metal.',
  'identify.because.word': '{by} says it is {color}.',
  'identify.because.company-1': 'Also there: {a}, as {system} has it.',
  'identify.because.company-2': 'Also there: {a} and {b}, as {system} has them.',
  'identify.because.company-3': 'Also there: {a}, {b} and {c}, as {system} has them.',
  'identify.because.alone': 'No other surely read color in the picture speaks for this system.',
  'identify.because.space': 'Pole space {space} is {role} in the usual numbering.',
  'identify.because.space-against':
    'Pole space {space} would be {role} in the usual numbering, which speaks against it.',
  'identify.because.space-said': 'Pole space {space} is {role} as you said the board is numbered.',
  'identify.because.space-said-against':
    'Pole space {space} would be {role} as you said the board is numbered, which speaks against it.',
  'identify.because.tag-reads': 'Its tag reads {tag}, which is {role} here. Tags are sometimes wrong.',
  'identify.because.tag-against': 'Its tag reads {tag}, which would be {role} and speaks against it.',
  'identify.because.tag-unknown': 'Its tag reads {tag}, which names nothing in this system.',
  'identify.because.said': 'The posted voltage you entered is {system}.',
  'identify.because.legend': 'The legend posted at this site gives {color} to {role}.',
  'identify.because.group-circuit': 'It shares a circuit with {count} more, each of which has its own role.',
  'identify.because.group-cable': 'It shares a cable with {count} more, each of which has its own role.',
  'identify.because.group-tag': 'It shares a tag with {count} more, each of which has its own role.',
  'identify.because.group-breaker': 'It lands on a breaker with {count} more, so it is ungrounded.',
  'identify.because.open': 'Color alone cannot decide: {color} may be {other} here just as well.',
  'identify.because.nothing-known': 'Nothing known here fits {color} in this company.',

  'identify.eliminated.present-1': 'Not {system}: {a} is present.',
  'identify.eliminated.present-2': 'Not {system}: {a} and {b} are present.',
  'identify.eliminated.present-3': 'Not {system}: {a}, {b} and {c} are present.',
  'identify.eliminated.missing-1': 'Unlikely {system}: no {a} is seen.',
  'identify.eliminated.missing-2': 'Unlikely {system}: no {a} and no {b} are seen.',
  'identify.eliminated.missing-3': 'Unlikely {system}: no {a}, no {b} and no {c} are seen.',
  'identify.eliminated.less': 'Unlikely {system}: other systems explain the picture better.',

  'identify.finding.white-as-hot':
    'A {color} conductor stands where an ungrounded one belongs, and no re-marking is seen. Measure it; do not take it for a neutral.',
  'identify.finding.white-remarked':
    'Re-marked with {tape} over {color}: treat it as ungrounded until it is measured, and see that the marking goes all the way round.',
  'identify.finding.green-as-other':
    'A {color} conductor seems to be used for something other than equipment grounding. Treat it as live until measured.',
  'identify.finding.tapes-disagree': 'Two tapes of different colors on one conductor. Find out which one holds.',
  'identify.finding.tape-not-encircling':
    'The {color} tape leaves insulation bare beside it on the side the photo shows: marking must go all the way round. It may be a label; it weighs less here.',
  'identify.finding.tape-must-encircle':
    'Marking tape must go all the way round the conductor; a photo shows one side. Look at the other.',
  'identify.finding.color-undecided':
    'Conductors whose color this photo does not settle: {count}. Tap a reference, add light, or look at the other end.',
  'identify.finding.systems-alike':
    'Two systems seem to be here ({a}; {b}) and nothing tells their ungrounded conductors apart.',
  'identify.finding.neutrals-alike':
    'Two systems seem to be here ({a}; {b}) and their grounded conductors look alike. They must differ.',
  'identify.finding.neutral-of-other-system':
    'This circuit of {system} has a {color} grounded conductor, as the other system here has. It may belong to the other one.',
  'identify.finding.high-leg-not-orange':
    'The high leg must be marked orange or by other effective means; this one reads {color}. It is about 208 V to neutral.',
  'identify.finding.high-leg-not-on-its-phase':
    'Space {space} ({expected}) holds {color}: the high leg is not where the pole pattern puts it. Measure to neutral before any 120 V load goes there.',
  'identify.finding.load-on-high-leg':
    'Space {space} is the high leg: a circuit with a neutral there gets about 208 V instead of 120 V.',
  'identify.finding.isolated-no-stripe':
    'Isolated power conductors need a distinctive colored stripe along their whole length; none is seen on this {color} one.',
  'identify.finding.isolated-forbidden-stripe':
    'The stripe of an isolated power conductor must not be white, green or gray; this one is {stripe}.',
  'identify.finding.old-and-new':
    'Colors from before and after 2004 meet here: blue may be a neutral or a phase, black a phase or a neutral. Color cannot tell them apart; measure.',
  'identify.finding.no-order': 'Brown, black and gray carry no phase order of their own. Measure rotation.',
  'identify.finding.phase-by-tag':
    'Colors here seem to tell the system but not the phase. Go by the number tags, and measure.',
  'identify.finding.no-ground-seen':
    'No equipment grounding conductor is seen. It may be the raceway; find it before you trust any reading to ground.',
  'identify.finding.no-neutral-seen': 'No grounded conductor is seen, though {system} has one.',
  'identify.finding.tag-against-space':
    'The tag reads {tag}, but the conductor lands on space {space}, which is {role}. The pole decides; measure.',
  'identify.finding.tag-against-color':
    'The tag reads {tag}, but {color} is the color of {role} here. One of them is wrong: measure.',
  'identify.finding.tag-repeated': 'Two conductors of one circuit or breaker are both tagged {tag}.',
  'identify.finding.panel-swapped':
    'The conductors on spaces {a} and {b} wear the colors of each other: phases may be swapped.',
  'identify.finding.panel-repeated':
    'Two poles of one breaker (spaces {a}, {b}) hold conductors of the same phase color.',
  'identify.finding.panel-rolled':
    'All phase colors are shifted against the usual pole pattern. The board may begin on another phase or be fed from below; read its stamp.',
  'identify.finding.panel-differs': 'Space {space} is {expected} in the usual pattern, but holds {color}.',
  'identify.finding.neutral-same-phase':
    'One neutral is shared by spaces {a} and {b}, which are on the same phase: its current adds up instead of cancelling.',
  'identify.finding.sets-differ':
    'The number of conductors differs from phase to phase ({counts}). Parallel sets must match.',
  'identify.finding.sets-worn-differently':
    'Sets tied by you wear different colors, yet only {system} is expected here. Parallel sets must be alike; otherwise ask whether a second supply is present.',
  'identify.finding.unknown-system': 'The system "{id}" is not known here and was left out.',
  'identify.finding.named-system-misfits':
    'The colors fit {system} far better than the posted voltage you entered. Check the nameplate, and measure before you rely on either.',
  'identify.finding.legend-two-colors': 'The legend gives {role} two colors: {a} and {b}.',
  'identify.finding.legend-two-roles': 'The legend gives {color} to both {a} and {b} of one system.',
  'identify.finding.legend-systems-alike': 'The legend gives {color} to ungrounded conductors of both {a} and {b}.',
  'identify.finding.legend-neutrals-alike':
    'The legend gives the grounded conductors of {a} and {b} the same look ({color}). They must differ where they meet.',
  'identify.finding.legend-green': 'The legend gives green to {role}; green is for equipment grounding alone.',
  'identify.finding.legend-white': 'The legend gives {color} to {role}; white and gray are for grounded conductors.',
  'identify.finding.legend-high-leg': 'The legend gives {color} to the high leg, which must be orange.',
  'identify.finding.legend-isolated': 'The legend gives {role} no stripe; isolated power needs a distinctive one.',

  'identify.legend.not-a-list': 'A legend is a list of lines: system, role, color, and a stripe where there is one.',
  'identify.legend.too-long': 'A legend may have 200 lines.',
  'identify.legend.malformed': 'This line of the legend is not complete, or has something that does not belong there.',
  'identify.legend.unknown-system': 'This line names a system that is not known here.',
  'identify.legend.unknown-role': 'This line names a role that is not known here.',
  'identify.legend.unknown-color': 'This line names a color that is not known here.',
  'identify.legend.role-not-in-system': 'The system of this line has no such role.',
  'identify.legend.stripe-of-same-color': 'A stripe needs a color other than the insulation.',
} as const satisfies Readonly<Record<string, string>>;
