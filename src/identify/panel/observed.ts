import type { ColorName, Role, SiteLegendEntry, SystemId } from '../../flow';
import { CONVENTIONS } from '../data/conventions';
import type { SchemeName } from '../model/role-look';

/** The ungrounded role that a color stands for in a system under one scheme, or null where it stands for none or several. */
export function roleByColor(
  system: SystemId,
  scheme: SchemeName,
  color: ColorName,
  legend: readonly SiteLegendEntry[],
): Role | null {
  const posted = legend.filter((e) => e.system === system && e.color === color && isLine(e.role));
  if (scheme === 'site legend' && posted.length > 0) return posted.length === 1 ? posted[0]!.role : null;
  const own = CONVENTIONS.filter((c) => c.system === system && c.scheme === scheme && isLine(c.role));
  const named = new Set(own.map((c) => c.role));
  const lines = [
    ...own,
    ...CONVENTIONS.filter((c) => c.system === system && c.scheme === 'habit' && isLine(c.role) && !named.has(c.role)),
  ];
  const fits = new Set(lines.filter((c) => c.looks.some((l) => l.color === color)).map((c) => c.role));
  return fits.size === 1 ? [...fits][0]! : null;
}

const isLine = (role: Role): boolean => role.startsWith('phase') || role.startsWith('line') || role === 'high leg';
