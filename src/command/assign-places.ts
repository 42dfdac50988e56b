import { basename } from 'node:path';
import type { PhotoPlace, Said, ScheduleLine } from '../flow';
import { readLine, readTag } from '../record';

/** What is known of a photo when it gets its place. */
export interface PhotoToPlace {
  readonly id: string;
  /** File name as found. */
  readonly path: string;
  readonly tag: string | null;
  /** Place among all photos of the folder, from 0. */
  readonly index: number;
}

/**
 * Where each photo was taken: by the tag in the picture, else by the schedule's photo column, else, only when that
 * was asked for, by order: the nth photo belongs to the nth line. A photo without any of these gets no place.
 */
export function assignPlaces(
  photos: readonly PhotoToPlace[],
  lines: readonly ScheduleLine[],
  inOrder: boolean,
  said: Said,
): PhotoPlace[] {
  const byName = new Map<string, ScheduleLine[]>();
  for (const line of lines) {
    const name = line.cells.photo?.trim();
    if (!name) continue;
    const list = byName.get(name);
    if (list) list.push(line);
    else byName.set(name, [line]);
  }
  return photos.flatMap((photo): PhotoPlace[] => {
    const tag = photo.tag === null ? null : readTag(photo.tag);
    if (tag) return [{ photo: photo.id, ...tag, how: 'by tag', ...said }];
    const named = byName.get(basename(photo.path));
    const inTurn = inOrder ? lines[photo.index] : undefined;
    const place = placeOf(named ?? (inTurn ? [inTurn] : []));
    return place ? [{ photo: photo.id, ...place, how: named ? 'by schedule' : 'by order', ...said }] : [];
  });
}

/** The place of a line: its termination when it has one only, else its first space; of several lines their panel. */
function placeOf(lines: readonly ScheduleLine[]): Pick<PhotoPlace, 'panel' | 'space' | 'termination'> | null {
  const [first, ...more] = lines.flatMap((line) => readLine(line).terminations);
  if (!first) return null;
  if (lines.length > 1) return more.every((t) => t.panel === first.panel) ? { panel: first.panel } : null;
  return {
    panel: first.panel,
    ...(first.space === null ? {} : { space: first.space }),
    ...(more.length === 0 ? { termination: first.id } : {}),
  };
}
