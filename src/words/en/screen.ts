/** Words of the screen room: codes start with "screen.". */
export const SCREEN_WORDS: Readonly<Record<string, string>> = {};
