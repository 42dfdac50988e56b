import type {
  JobPhoto,
  NamedConductor,
  PhotoPlace,
  Sighting,
  Termination,
  TerminationEntry,
  Turnover,
} from '../../flow';

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

/** Whether both are of the same objects; these never change. */
export const sameSight = (a: Sight, b: Sight): boolean =>
  a.kind === b.kind &&
  (a.kind === 'no photo' || (b.kind !== 'no photo' && a.photo === b.photo)) &&
  (a.kind !== 'seen' || (b.kind === 'seen' && a.conductor === b.conductor && a.said === b.said));

/** Photos of a job by where they were taken, made once for a whole comparison. */
export interface PlaceIndex {
  readonly photos: ReadonlyMap<string, JobPhoto>;
  readonly at: ReadonlyMap<string, readonly PhotoPlace[]>;
}

const spaceKey = (panel: string, space: number): string => JSON.stringify([panel, space]);

/** Lists of photos and places never change: the index of the comparison before serves while both are the same. */
const knownIndex = new WeakMap<
  readonly JobPhoto[],
  { readonly places: Turnover['places']; readonly index: PlaceIndex }
>();

export function indexPlaces(photos: readonly JobPhoto[], { places }: Pick<Turnover, 'places'>): PlaceIndex {
  const before = knownIndex.get(photos);
  if (before?.places === places) return before.index;
  const index = makeIndex(photos, places);
  knownIndex.set(photos, { places, index });
  return index;
}

function makeIndex(photos: readonly JobPhoto[], places: Turnover['places']): PlaceIndex {
  const at = new Map<string, PhotoPlace[]>();
  const add = (key: string, place: PhotoPlace): void => {
    const there = at.get(key);
    if (there) there.push(place);
    else at.set(key, [place]);
  };
  for (const place of places) {
    if (place.termination !== undefined) add(place.termination, place);
    else if (place.space !== undefined) add(spaceKey(place.panel, place.space), place);
    else add(JSON.stringify([place.panel]), place);
  }
  return { photos: new Map(photos.map((photo) => [photo.id, photo])), at };
}

interface Known {
  readonly index: PlaceIndex;
  readonly sightings: TerminationEntry['sightings'];
  readonly sight: Sight;
}

const knownSight = new WeakMap<Termination, Known>();

/**
 * The conductor at a termination. The last one that somebody pointed out counts; without a word, only a photo of
 * this termination alone that shows one conductor will do. Colors are never used to choose: the one that fits the
 * schedule would always be found.
 */
export function sightOf(t: Termination, turnover: Turnover, index: PlaceIndex): Sight {
  const sightings = turnover.entries[t.id]?.sightings;
  const before = knownSight.get(t);
  if (before?.index === index && before.sightings === sightings) return before.sight;
  const sight = findSight(t, sightings ?? [], index);
  knownSight.set(t, { index, sightings, sight });
  return sight;
}

function findSight(t: Termination, sightings: readonly Sighting[], index: PlaceIndex): Sight {
  for (const sighting of [...sightings].reverse()) {
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
