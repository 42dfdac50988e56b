import type { JobPhoto, NamedConductor, PhotoPlace, Sighting, Termination, Turnover } from '../../flow';

/** What the photos of a job show of a termination. */
export type Sight =
  | { readonly kind: 'no photo' }
  /** Photos were taken there, but none of their conductors is known to be this one. */
  | { readonly kind: 'not pointed out'; readonly photo: JobPhoto }
  | {
      readonly kind: 'seen';
      readonly photo: JobPhoto;
      readonly conductor: NamedConductor;
      /** Who pointed it out; null when it is the only one in a photo of this termination alone. */
      readonly said: Sighting | null;
    };

/** Photos of a job by where they were taken, made once for a whole comparison. */
export interface PlaceIndex {
  readonly photos: ReadonlyMap<string, JobPhoto>;
  readonly at: ReadonlyMap<string, readonly PhotoPlace[]>;
}

const spaceKey = (panel: string, space: number): string => JSON.stringify([panel, space]);

export function indexPlaces(photos: readonly JobPhoto[], turnover: Turnover): PlaceIndex {
  const at = new Map<string, PhotoPlace[]>();
  const add = (key: string, place: PhotoPlace): void => void at.set(key, [...(at.get(key) ?? []), place]);
  for (const place of turnover.places) {
    if (place.termination !== undefined) add(place.termination, place);
    else if (place.space !== undefined) add(spaceKey(place.panel, place.space), place);
    else add(JSON.stringify([place.panel]), place);
  }
  return { photos: new Map(photos.map((photo) => [photo.id, photo])), at };
}

/**
 * The conductor at a termination. The last one that somebody pointed out counts; without a word, only a photo of
 * this termination alone that shows one conductor will do. Colors are never used to choose: the one that fits the
 * schedule would always be found.
 */
export function sightOf(t: Termination, turnover: Turnover, index: PlaceIndex): Sight {
  for (const sighting of [...(turnover.entries[t.id]?.sightings ?? [])].reverse()) {
    const photo = index.photos.get(sighting.photo);
    const conductor = photo?.findings.conductors.find((c) => c.id === sighting.conductor);
    if (photo && conductor) return { kind: 'seen', photo, conductor, said: sighting };
  }
  const keys = [t.id, ...(t.space === null ? [] : [spaceKey(t.panel, t.space)]), JSON.stringify([t.panel])];
  for (const key of keys) {
    const place = index.at.get(key)?.findLast((p) => index.photos.has(p.photo));
    const photo = place && index.photos.get(place.photo);
    if (!photo) continue;
    const [only, ...more] = photo.findings.conductors;
    if (key === t.id && only && more.length === 0) return { kind: 'seen', photo, conductor: only, said: null };
    return { kind: 'not pointed out', photo };
  }
  return { kind: 'no photo' };
}
