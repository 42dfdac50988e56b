import type { PhotoPlace } from '../../flow';

/** Where a printed tag says it hangs. */
export type TagPlace = Pick<PhotoPlace, 'panel' | 'space' | 'termination'>;

const MARK = 'HUEPROOF:1:';

/** Text of a tag's code: short, so that the code stays coarse enough to be read from a photo of the whole panel. */
export const tagText = ({ panel, space, termination }: TagPlace): string =>
  MARK + [panel, space ?? '', termination ?? ''].map((part) => encodeURIComponent(part)).join('/');

/** The place a code names; null when it is somebody else's code or is not whole. */
export function readTag(text: string): TagPlace | null {
  if (!text.startsWith(MARK)) return null;
  try {
    const [panel = '', space = '', termination = '', ...more] = text
      .slice(MARK.length)
      .split('/')
      .map((part) => decodeURIComponent(part));
    if (panel === '' || more.length > 0 || !/^(?:[1-9]\d{0,2})?$/.test(space)) return null;
    return {
      panel,
      ...(space === '' ? {} : { space: Number(space) }),
      ...(termination === '' ? {} : { termination }),
    };
  } catch {
    // An escape that is not whole.
    return null;
  }
}
