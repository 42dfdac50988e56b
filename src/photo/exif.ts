import exifr from 'exifr';

/** What EXIF says, where it says it. `orientation` is 1 when absent or out of range. */
export interface ExifFacts {
  readonly orientation: number;
  readonly takenAt?: string;
  readonly camera?: string;
  readonly flashFired?: boolean;
  readonly exposureTime?: number;
  readonly iso?: number;
}

const OPTIONS = {
  tiff: true,
  ifd0: { pick: ['Orientation', 'Make', 'Model'] },
  exif: { pick: ['DateTimeOriginal', 'OffsetTimeOriginal', 'Flash', 'ExposureTime', 'ISO'] },
  gps: false,
  interop: false,
  ifd1: false,
  xmp: false,
  icc: false,
  iptc: false,
  jfif: false,
  ihdr: false,
  translateKeys: true,
  translateValues: false,
  reviveValues: false,
};

const positive = (value: unknown): number | undefined =>
  typeof value === 'number' && Number.isFinite(value) && value > 0 ? value : undefined;

/** Text from the file is untrusted: control characters go, length is bounded. */
const text = (value: unknown): string =>
  typeof value === 'string'
    ? value
        .replaceAll(/\p{Cc}+/gu, ' ')
        .trim()
        .slice(0, 60)
    : '';

/** '2024:05:06 07:08:09' with '+01:00' to ISO 8601; undefined when it is not a date (cameras write zeros). */
function isoTime(value: unknown, offset: unknown): string | undefined {
  const match = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)/.exec(text(value));
  if (!match || match[1] === '0000') return undefined;
  const zone = /^[+-]\d\d:\d\d$/.test(text(offset)) ? text(offset) : '';
  const iso = `${match[1]}-${match[2]}-${match[3]}T${match[4]}${zone}`;
  return Number.isNaN(Date.parse(iso)) ? undefined : iso;
}

/** Reads a bare TIFF stream of EXIF. Never fails: damaged EXIF is common and only costs the facts in it. */
export async function readExif(block: Uint8Array | undefined): Promise<ExifFacts> {
  if (!block || block.length < 14) return { orientation: 1 };
  let tags: Record<string, unknown>;
  try {
    tags = ((await exifr.parse(block, OPTIONS)) as Record<string, unknown> | undefined) ?? {};
  } catch {
    return { orientation: 1 };
  }
  const { Orientation, Make, Model, DateTimeOriginal, OffsetTimeOriginal, Flash, ExposureTime, ISO } = tags;
  const orientation = positive(Orientation);
  const takenAt = isoTime(DateTimeOriginal, OffsetTimeOriginal);
  const camera = [text(Make), text(Model)].filter(Boolean).join(' ');
  const exposureTime = positive(ExposureTime);
  const iso = positive(Array.isArray(ISO) ? ISO[0] : ISO);
  return {
    orientation: orientation && Number.isInteger(orientation) && orientation <= 8 ? orientation : 1,
    ...(takenAt ? { takenAt } : {}),
    ...(camera ? { camera } : {}),
    ...(typeof Flash === 'number' ? { flashFired: (Flash & 1) === 1 } : {}),
    ...(exposureTime ? { exposureTime } : {}),
    ...(iso ? { iso } : {}),
  };
}
