/** International inch: 25.4 mm exactly (1959). */
const MM: Readonly<Record<string, number>> = { mm: 1, cm: 10, in: 25.4, '"': 25.4 };

const WRITTEN = /^(?:(\d+(?:[.,]\d+)?)|(?:(\d+)\s+)?(\d+)\/(\d+))\s*(mm|cm|in|")?$/i;

/** A length as a hand writes it, in mm: "35", "8,5 cm", "1.4 in", '1 3/8"'. Without a unit it is mm. Null where it is none above 0. */
export function lengthMm(text: string): number | null {
  const [, decimal, whole, over, under, unit = 'mm'] = WRITTEN.exec(text.trim()) ?? [];
  const number = decimal ? Number(decimal.replace(',', '.')) : Number(whole ?? 0) + Number(over) / Number(under);
  const mm = number * (MM[unit.toLowerCase()] ?? Number.NaN);
  return mm > 0 && Number.isFinite(mm) ? mm : null;
}
