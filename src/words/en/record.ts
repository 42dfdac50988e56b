/** Words of the record room: codes start with "record.". */
export const RECORD_WORDS: Readonly<Record<string, string>> = {};
