import type { PhotoPlace, Said, Turnover } from '../../flow';
import type { TagPlace } from '../../record';

/** The part of a termination that says where it is. */
export interface PlaceOfWork {
  readonly id: string;
  readonly panel: string;
  readonly space: number | null;
}

/** A photo's place by the label in the picture. */
export const tagged = (photo: string, tag: TagPlace, said: Said): PhotoPlace => ({
  photo,
  ...tag,
  how: 'by tag',
  ...said,
});

/** The turnover with a photo said to have been taken at a termination; a second photo there counts as taken after. */
export function placePhoto(turnover: Turnover, photo: string, at: PlaceOfWork, said: Said): Turnover {
  const again = turnover.places.some((p) => p.termination === at.id && p.photo !== photo);
  const fresh: PhotoPlace = {
    photo,
    panel: at.panel,
    ...(at.space === null ? {} : { space: at.space }),
    termination: at.id,
    how: 'by hand',
    ...(again ? { after: true as const } : {}),
    ...said,
  };
  const others = turnover.places.filter((p) => !(p.photo === photo && p.termination === at.id));
  return { ...turnover, places: [...others, fresh] };
}
