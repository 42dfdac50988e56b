/** Words of the turnover in the record room: schedule, comparison, deviations, archive. */
export const TURNOVER_WORDS = {
  'record.schedule.binary': 'it is not text',
  'record.schedule.quote': 'a quotation mark is opened and never closed, or stands where none may',
  'record.schedule.empty': 'it has no lines below the heading',
  'record.schedule.no-panel': 'No panel is named.',
  'record.schedule.space-twice': 'Space {space} of {panel} is also claimed by row {row}.',
  'record.schedule.unclear-panel': 'Panel "{text}" is not clear.',
  'record.schedule.unclear-space': 'Space "{text}" is not clear. Write 7, or 7,9,11.',
  'record.schedule.unclear-poles': 'Poles "{text}" do not fit the spaces. Write 1, 2 or 3.',
  'record.schedule.unclear-system': 'System "{text}" is not known here. Write the voltage, such as 208Y/120.',
  'record.schedule.unclear-phase': 'Phase "{text}" is not clear. Write one for each pole, such as A/B/C.',
  'record.schedule.unclear-circuit': 'Circuit "{text}" is not clear.',
  'record.schedule.unclear-load': 'Load "{text}" is not clear.',
  'record.schedule.unclear-color':
    'Color "{text}" is not clear. Write one for each pole, such as BK/RD/BU, or one for all.',
  'record.schedule.unclear-size': 'Size "{text}" is not clear.',
  'record.schedule.unclear-neutral': 'Neutral "{text}" is not a color. Write a color, yes, or leave it empty.',
  'record.schedule.unclear-ground': 'Ground "{text}" is not a color. Write a color, yes, or leave it empty.',
  'record.schedule.unclear-torque': 'Torque "{text}" has no unit. Write N·m, lbf·in or lbf·ft.',
  'record.schedule.unclear-photo': 'Photo "{text}" is not clear.',
} as const satisfies Readonly<Record<string, string>>;
