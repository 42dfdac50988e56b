/** Words of the color room: codes start with "color.". */
export const COLOR_WORDS: Readonly<Record<string, string>> = {};
