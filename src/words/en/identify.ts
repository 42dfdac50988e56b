/** Words of the identify room: codes start with "identify.". */
export const IDENTIFY_WORDS: Readonly<Record<string, string>> = {};
