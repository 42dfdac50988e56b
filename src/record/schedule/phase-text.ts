import type { Role } from '../../flow';

const ROLE: Readonly<Record<string, Role>> = {
  a: 'phase A',
  b: 'phase B',
  c: 'phase C',
  l1: 'line 1',
  l2: 'line 2',
  high: 'high leg',
  wild: 'high leg',
  n: 'grounded conductor',
};

/** "A", "A/B/C", "ABC", "phase B", "L1-L2", one for each pole; null when it is not clear. */
export function readPhases(text: string, poles: number): readonly Role[] | null {
  const words = text
    .toLowerCase()
    .replaceAll(/\b(?:phases?|ph|leg|ø)\b/g, ' ')
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '')
    .flatMap((word) => (/^[abc]{2,3}$/.test(word) ? [...word] : [word]));
  const roles = words.map((word) => ROLE[word]);
  if (roles.length !== poles || new Set(roles).size !== poles) return null;
  return roles.every((role) => role !== undefined) ? roles : null;
}
