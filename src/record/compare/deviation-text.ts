import { type Deviation, type Message, message } from '../../flow';

/** A deviation as a sentence in the language of `say`; one of the schedule begins with its row. */
export const deviationText = ({ row, message: what }: Deviation, say: (message: Message) => string): string =>
  row === undefined ? say(what) : say(message('record.deviation.schedule', { row, what: say(what) }));
