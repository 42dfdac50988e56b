import type { JobPhoto, NamedConductor } from '../../flow';

/**
 * Puts `added` where the first of `removed` stood (at the end when nothing is removed), so that the numbers of the
 * conductors before it stay as they are. Words about conductors that left go with them; readings stay, because a
 * reading that was taken is never unsaid.
 */
export function replaceConductors(
  photo: JobPhoto,
  removed: readonly string[],
  added: readonly NamedConductor[],
): JobPhoto {
  const old = photo.findings.conductors;
  const gone = new Set(removed);
  const first = old.findIndex((c) => gone.has(c.id));
  const at = first < 0 ? old.length : first;
  const conductors = [
    ...old.slice(0, at).filter((c) => !gone.has(c.id)),
    ...added,
    ...old.slice(at).filter((c) => !gone.has(c.id)),
  ];
  const words = Object.fromEntries(Object.entries(photo.words).filter(([id]) => !gone.has(id)));
  return { ...photo, words, findings: { ...photo.findings, conductors } };
}
