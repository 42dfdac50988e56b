/** Words of the verify room: codes start with "verify.". */
export const VERIFY_WORDS: Readonly<Record<string, string>> = {};
