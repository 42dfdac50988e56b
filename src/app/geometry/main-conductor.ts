import { type Findings, type NamedConductor, nearestOnPolyline } from '../../flow';

/** The conductor a close-up is most likely about: thick, surely there, and near the middle. Null when none was found. */
export function mainConductor(findings: Findings): NamedConductor | null {
  const { workingWidth: width, workingHeight: height, conductors } = findings;
  const diagonal = Math.hypot(width, height);
  const weight = (c: NamedConductor): number => {
    const away = nearestOnPolyline(c.centerline, [width / 2, height / 2])?.distance ?? diagonal;
    return (c.widthPx * c.presence) / (1 + (6 * away) / diagonal);
  };
  return conductors.reduce<NamedConductor | null>((best, c) => (!best || weight(c) > weight(best) ? c : best), null);
}
