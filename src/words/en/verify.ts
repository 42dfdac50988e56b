/** Words of the verify room: codes start with "verify.". */
export const VERIFY_WORDS = {
  'verify.why.line-neutral':
    '{conductor} to neutral, low-impedance range: shows that it is a supplied {role} and not a coupled voltage.',
  'verify.why.line-ground': '{conductor} to ground: shows that neutral and ground agree, and finds an open neutral.',
  'verify.why.floating-ground':
    '{conductor} to ground: in this system both lines should float near half; a value near 0 or near full means that a line has a ground fault.',
  'verify.why.line-line':
    '{conductor} to another line: shows that they are different phases, and which kind of system it is.',
  'verify.why.own-pole':
    '{conductor} to the marked pole for {role}: about 0 V on its own pole. Nothing else tells the letter.',
  'verify.why.neutral-ground': '{conductor} to ground: a grounded conductor shows at most a few volts.',
  'verify.why.neutral-line':
    '{conductor} to each line, low-impedance range: an open neutral cannot hold the line voltage.',
  'verify.why.neutral-isolation':
    'Supply proven off, {conductor} lifted: open to ground. Under voltage a grounded conductor and an equipment grounding conductor read the same.',
  'verify.why.grounding-zero': '{conductor} to proven ground: about 0 V.',
  'verify.why.grounding-line': 'A line to {conductor}: full line to ground voltage.',
  'verify.why.grounding-bond': 'Supply proven off, {conductor} lifted: closed to the enclosure at the far end.',
  'verify.why.poles': '{conductor} to the other pole, DC with its sign: shows the polarity.',
  'verify.why.pole-ground':
    '{conductor} to ground, DC with its sign: shows on which side it lies, and a pole that is grounded.',
  'verify.why.switch-on': '{conductor} to neutral with the switch on: full line voltage.',
  'verify.why.switch-off': '{conductor} to neutral with the switch off: about 0 V on the low-impedance range.',
  'verify.why.switch-both':
    '{conductor} to neutral, lit from the other position of both switches: a switch leg stays live, a traveler does not.',
  'verify.why.traveler':
    '{conductor} to neutral in this position: exactly one of two travelers is live, and moving the far switch changes neither.',
  'verify.why.rotation': 'Rotation of the three lines: motors turn the other way if two are exchanged.',
  'verify.why.survey': 'Nothing that can be proved is claimed of {conductor} yet: see what it shows to ground.',
  'verify.why.settle': 'Read it again: {value} contradicts the map, and this tells the explanations apart.',
  'verify.why.tell-apart': '{conductor} here: the explanations that are left expect different volts of it.',
  'verify.why.ring-open':
    'Supply proven off, {conductor} lifted at both ends: open to ground before anything is bonded.',
  'verify.why.ring-closed':
    'Bond only the far end of {conductor} to ground: it alone now reads closed. Number both ends.',
  'verify.why.tone':
    'Supply proven off, both ends lifted: send a tone into {conductor} against ground and listen at the far ends. The loudest is the one to try first; a tone couples into neighbors and proves nothing alone.',

  'verify.ring.tied':
    '{conductor} is closed to ground though both ends are lifted: it is not lifted everywhere, is spliced on the way, or a lead is on another place. Find out which before anything is bonded.',
  'verify.ring.not-this-end':
    '{conductor} stays open: the end that was bonded is not its own, or it is broken on the way. Take the bond off and try another far end.',
  'verify.ring.no-tone':
    '{conductor} reads closed with that far end bonded, but no tone came through it: read both again. The bond may sit on another conductor that touches it.',

  'verify.rules-out.role': '{conductor} being {role} ({system})',
  'verify.rules-out.swapped': '{first} and {second} exchanged',
  'verify.rules-out.disconnected': '{conductor} connected to nothing',
  'verify.rules-out.open-neutral': 'an open neutral at {conductor}',

  'verify.question.kind': 'This value does not belong to this meter function.',
  'verify.question.third-lead': 'A rotation check has three leads. Where was the third?',
  'verify.question.same-place': 'Two leads stand on the same place.',
  'verify.question.overload':
    'OL on a voltage range means that the voltage is above the range. Stop and check the range and the rating of the meter.',
  'verify.question.not-a-number': 'This is not a number.',
  'verify.question.negative': '{value} V is negative, which an AC range does not show. Was it DC?',
  'verify.question.too-high':
    '{value} V is above anything this tool is for. A slip of a digit? If it is real, stop and call the person responsible for the site.',
  'verify.question.above-site':
    '{value} V is more than any system thought to be here has (up to {limit} V). Read it again before it counts.',
  'verify.question.continuity-live': 'Continuity is only read with the supply proven off. Was it?',
  'verify.question.tone-live': 'A tone is only sent with the supply proven off and both ends lifted. Was it?',
  'verify.question.direct-on-ac':
    'The dial is on DC, but this system is AC: it would read about 0 on a live conductor.',
  'verify.question.ac-on-direct':
    'The dial is on AC, but this system is DC: it would read about 0 on a live conductor.',

  'verify.explain.swapped': '{first} and {second} are exchanged: {first} is {other}, {second} is {role}.',
  'verify.explain.reversed-polarity': 'Polarity is reversed: {first} is {other} and {second} is {role}.',
  'verify.explain.other-system': 'The conductors belong to another system: {system}.',
  'verify.explain.other-role':
    '{conductor} is {role} ({count} {count:conductor differs|conductors differ} from the map).',
  'verify.explain.disconnected':
    '{conductor} is connected to nothing at its supply; what the meter shows is coupled from its neighbors.',
  'verify.explain.open-neutral': 'The neutral {conductor} is open toward the supply and floats between the lines.',
  'verify.explain.shared-neutral': 'The neutral {conductor} carries the return current of another circuit.',
  'verify.explain.back-feed': '{conductor} has lost its supply; a motor or a load of another phase feeds into it.',
  'verify.explain.ground-fault': 'One line of the ungrounded system has a ground fault.',
  'verify.explain.reading-mistake': 'The reading {value} was mistyped, or a lead was on another place.',
  'verify.explain.out-of-range':
    'Everything is as the map says, and {value} V still lies outside the range its rule allows: the supply is too high, too low or uneven. Read it again and tell whoever looks after the supply.',
  'verify.explain.uneven':
    'Each reading lies in its band, but together they do not belong to one supply: phases far apart, a neutral that is lifted, or values read at different times. Read them again, one after the other.',
  'verify.explain.wrong-function': 'The meter was on another function when it showed {value}.',

  'verify.change.role': '{conductor}: by the readings now {to} ({system}, {percent} %), before {from}.',
  'verify.change.metered': '{conductor} is now metered as {role}: every required reading is in and agrees.',
  'verify.change.disputed': '{conductor} is now disputed: a reading contradicts {role}.',
  'verify.change.by-color': '{conductor} is back to by color (it was {was}): readings for {role} are missing.',

  'verify.aside.superseded': 'The earlier value {value} is kept but no longer counts.',
  'verify.aside.taken-back': '{value} was taken back: it is kept and no longer counts.',
  'verify.aside.questioned': '{value} does not count until it is confirmed.',
  'verify.aside.taken-before-an-edit': '{value} was taken before the conductor was edited and no longer counts.',
  'verify.aside.unsigned': '{value} does not count: it lacks a name or a time.',

  'verify.beyond-normal':
    '{value} V agrees, but lies outside the normal range ({low} to {high} V, {rule} range {range}, {place}). Such volts should be seldom and brief: tell whoever looks after the supply.',

  'verify.stop.wet-or-damaged':
    'Wet or damaged gear: do not open or measure. Keep away and call the person responsible for the site.',
  'verify.stop.over-600':
    '{volts} V is above 600 V: outside what this tool is for. Call a person qualified for that voltage.',
  'verify.stop.unknown-system':
    'The system is not known here, so nothing can be expected of a reading. Find the one-line diagram or call the person who looks after the installation.',
  'verify.stop.isolated':
    '{system}: do not measure into an isolated system that nobody has confirmed. Call the person who looks after it; in health care, the facility.',
  'verify.stop.dc-volts':
    '{system}: read the voltage from the nameplate first; strings in series add up. If it cannot be read, call the installer.',
  'verify.stop.no-rated-meter':
    'No meter with a stated category and voltage has been entered: no reading is asked for without one.',
  'verify.stop.category':
    'The meter is CAT {category}; at {place} at least CAT {needed} is needed. Get such a meter, or call a qualified person who has one.',
  'verify.stop.accuracy':
    'This meter is coarser than {percent} % + {volts} V: it cannot tell one supply from the next. Use a finer one.',
  'verify.stop.rated-volts':
    'The meter is rated {rated} V; up to {most} V is expected here. Get a meter rated for it, or call a qualified person who has one.',
  'verify.notice.no-low-impedance':
    'This meter has no low-impedance range: it cannot tell a coupled voltage from a real one, so no line can become metered with it.',
  'verify.notice.two-systems':
    'Two systems may share this enclosure: opening one disconnect leaves the other live, and readings between the two have no fixed value.',
  'verify.notice.floating':
    'Nothing is bonded to ground in this system: a reading to ground may wander, and 0 V to ground can be a ground fault with the line fully live.',
  'verify.band.ansi': 'ANSI C84.1',
  'verify.band.iec': 'IEC 60038',
  'verify.band.uk': 'BS 7671 appendix 2',
  'verify.band.uk-old': 'UK practice before 1995',
  'verify.band.csa': 'CSA C235',
  'verify.band.own': 'our own allowance',
  'verify.band.service': 'at the service',
  'verify.band.utilization': 'where it is used',
  'verify.band.one-range': '{rule}, {place}',
  'verify.band.two-ranges': '{rule} range {range}, {place}',
  'verify.band.floating': 'floating, near half',
  'verify.band.load-drop': 'load drop up to {percent} %',
  'verify.band.two-systems': 'two systems, angle unknown',
  'verify.band.bonded': 'bonded: common practice, no source',
  'verify.band.open': 'open: common practice, no source',
  'verify.band.rotation': 'order of the phases',

  'verify.place.outlet': 'an outlet or plugged-in equipment',
  'verify.place.panel': 'a panel or the fixed wiring',
  'verify.place.service': 'the service or the origin of the supply',

  'verify.step.qualified':
    'Only a qualified person measures here: trained for this equipment, this voltage and this instrument.',
  'verify.step.local-rules':
    'Local codes and the rules of the employer and the site go before everything this tool says.',
  'verify.step.off-first':
    'Measure with the supply on only where it cannot be done with the supply off, or where switching off adds hazard. Otherwise use the plan with the supply proven off.',
  'verify.step.gear':
    'Look first: no water, no damage, no smell of burning, nothing loose. If in doubt, stop and call.',
  'verify.step.rated-meter':
    'Meter and leads carry the category of the place (panel: at least CAT III, service: CAT IV) and a voltage not below the highest expected.',
  'verify.step.leads': 'Leads, probes and fuses are whole; jacks and function are set for voltage.',
  'verify.step.ppe':
    'Treat everything as energized until proven otherwise, and keep the protective equipment for that on through the test.',
  'verify.step.known-source': 'Try the meter on a known live source, on the function that will be used.',
  'verify.step.find-sources':
    'Find every source that can supply this place: drawings, tags, generators, solar, back-feed.',
  'verify.step.open-each': 'Take the load off properly, then open the disconnect of each source.',
  'verify.step.see-blades': 'Where it can be seen, see that the blades are open or the unit is drawn out.',
  'verify.step.stored': 'Discharge stored electrical energy: capacitors, drives, batteries.',
  'verify.step.stored-other': 'Block or release other stored energy: springs, pressure, weight.',
  'verify.step.lockout': 'Lock and tag each disconnect by the site procedure.',
  'verify.step.prove-before': 'Live-dead-live, first part: the tester shows a known live source.',
  'verify.step.absence':
    'At every place of work, test each conductor to each other and each to ground with a rated contact instrument.',
  'verify.step.prove-after': 'Live-dead-live, last part: the tester shows the known live source again.',
  'verify.step.grounding': 'Where voltage can be induced or come back, put on temporary protective grounds.',
  'verify.step.no-proximity': 'Proximity and solenoid testers do not show absence of voltage.',
  'verify.step.ghost':
    'A high-impedance meter can show most of the line voltage on a conductor that is connected to nothing. The low-impedance range tells; on some circuits it can trip a protective device.',
  'verify.step.back-feed': 'A voltage that stays under load is real or fed back: find its source before going on.',
} as const satisfies Readonly<Record<string, string>>;
