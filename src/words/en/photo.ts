/** Words of the photo room: codes start with "photo.". */
export const PHOTO_WORDS: Readonly<Record<string, string>> = {};
