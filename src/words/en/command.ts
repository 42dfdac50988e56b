/** Words of the command line: codes start with "command.". */
export const COMMAND_WORDS = {
  'command.inspect.help': `Usage: npm run --silent inspect -- [--at X,Y ...] [--points INDEX.json] [--json] FILE...

Reads photos of conductors: where each insulated conductor is, what color it may be, what it may be for.

  --at X,Y ...         trace the conductor under these points of the upright photo (full-size pixels)
  --points INDEX.json  trace from every labelled point of an index (images[].file, images[].points[].x, .y);
                       without FILE, every photo of the index is read
  --json               one JSON line a photo, coordinates in full-size pixels
  --help               this text

Exit code: 0 all photos read, 1 at least one could not be read, 2 wrong arguments.
A hue is a hint; the meter is the proof. Nothing here says that a conductor is safe or dead.`,
  'command.bad.no-files': 'no photo was named',
  'command.bad.unknown': '{option} is not an option',
  'command.bad.point': '{text} is not a point: write X,Y in pixels, such as 120,340',
  'command.bad.value': '{option} needs a value',
  'command.bad.index': '{file} is not an index of photos: {why}',
  'command.cannot-open': 'the file cannot be read ({why})',
  'command.reading': 'reading {index} of {count}: {name}',
  'command.failed': '{failed} of {count} photos could not be read',
  'command.outside': '{name}: the point {x},{y} is outside the photo ({width} by {height})',
  'command.photo': '{name}: {width} by {height} pixels, read in {ms} ms',
  'command.capture.good': 'Capture: good',
  'command.capture.limited': 'Capture: usable with doubt',
  'command.capture.retake': 'Capture: take it again',
  'command.light': 'Light: {basis}, x {x} y {y}, give or take {deg} degrees',
  'command.none': 'No conductor was found with nobody pointing. Use --at to point at one.',
  'command.head.id': 'id',
  'command.head.color': 'color, by its look',
  'command.head.sure': 'sure of first',
  'command.head.marks': 'stripe, tape',
  'command.head.role': 'may be (not proved)',
  'command.head.width': 'width px',
  'command.head.at': 'at px',
  'command.bare': 'bare metal',
  'command.or': ' or ',
  'command.role': '{role}, {system}, {percent} %',
  'command.role.open': 'open',
  'command.stripe': '{name} stripe {layout}',
  'command.tape': '{name} tape',
  'command.probe': 'At {x},{y}:',
  'command.probe.none': 'nothing could be traced from here',
  'command.warning': 'Warning: {text}',
  'command.proof': 'A hue is a hint; the meter is the proof. Treat every conductor as live until it is proved dead.',
  'command.bad.whole': '{option} wants a whole number from 1 up, not {text}.',
  'command.bad.column': '--column wants FIELD=HEADING, not {text}. Fields: {fields}.',
  'command.bad.words': '{why}',
  'command.bad.no-column': 'The schedule has no column called {heading}.',
  'command.progress': '[{bar}] {done} of {of}, {seconds} s, about {left} s left',
  'command.turnover.help': `npm run turnover -- --photos FOLDER --out FOLDER [--schedule FILE.csv]

Reads every photo below a folder and writes an archive, a report and a list of deviations. A run that was stopped
goes on where it was when it is started again with the same --out.

  --schedule FILE     CSV with one heading line
  --column FIELD=HEADING   which column is which, where the usual headings are not used; may come again
  --in-order          the first photo belongs to the first line, and so on
  --pair-in-order     conductors side by side land in the order of the schedule, where there are
                      as many of both; the record says that nobody pointed at them
  --title TEXT        name of the record
  --by NAME           who answers for it
  --jobs N            photos read at the same time, each by a process of its own
  --part K/N          only this share of the photos, for array jobs; put together with npm run merge
  --no-report         no PDF`,
  'command.turnover.duplicate': '{name} is the same photo as {first}: kept once.',
  'command.turnover.failed': '{name}: not read ({problem}).',
  'command.turnover.fault': 'Schedule, row {row}: {what}',
  'command.turnover.reading': '{count} photos to read, {kept} read before.',
  'command.turnover.done':
    '{photos} photos, {terminations} terminations: {match} match, {differs} differ, {unsure} cannot tell, {missing} missing. Files: {out}',
  'command.verify.help': 'npm run --silent verify -- FILE.zip ...: proves archives and names what changed.',
  'command.verify.good': '{name}: as it was written. {files} files, {entries} log entries, the last with hash {head}.',
  'command.verify.bad': '{name}: changed.',
  'command.merge.help': 'npm run merge -- --out FILE.zip PART.zip PART.zip ...: makes one archive of several.',
  'command.merge.done': '{out}: {photos} photos from {parts} archives.',
} as const satisfies Readonly<Record<string, string>>;
