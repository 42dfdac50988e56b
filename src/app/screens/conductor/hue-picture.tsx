import type { InsulationColor } from '../../../flow';
import { t } from '../../text/t';

/** CIELAB chroma at the rim of the picture: reaches the strongest insulation colors. */
const RIM = 90;
const R = 92;

/** Where hues lie, CIELAB h in degrees (sRGB primaries and secondaries, rounded); letters as in IEC 60757. */
const MARKS = [
  ['RD', 35],
  ['OG', 62],
  ['YE', 95],
  ['GN', 145],
  ['TQ', 195],
  ['BU', 275],
  ['VT', 308],
  ['PK', 0],
] as const;

/** The color as seen, by hue (direction) and strength (distance from the gray middle). Lightness is left out. */
export function HuePicture({ insulation }: { readonly insulation: InsulationColor }) {
  const [, a, b] = insulation.lab;
  const chroma = Math.hypot(a, b);
  const k = (R * Math.min(1, RIM / Math.max(chroma, 1e-6))) / RIM;
  const spread = 6 + 26 * (1 - insulation.confidence);
  return (
    <figure className="hue">
      <svg
        viewBox="-120 -120 240 240"
        role="img"
        aria-label={t('screen.hue.alt', { hue: hueOf(a, b), strength: Math.round(chroma) })}
      >
        <circle className="hue-rim" r={R} />
        <path className="hue-cross" d={`M${-R} 0H${R}M0 ${-R}V${R}`} />
        {MARKS.map(([letters, degrees]) => {
          const turn = (degrees * Math.PI) / 180;
          return (
            <text key={letters} x={Math.cos(turn) * (R + 14)} y={-Math.sin(turn) * (R + 14)}>
              {letters}
            </text>
          );
        })}
        <circle className="hue-spread" cx={a * k} cy={-b * k} r={spread} />
        <circle className="hue-dot" cx={a * k} cy={-b * k} r={5} />
      </svg>
      <figcaption className="soft">{t('screen.hue.caption')}</figcaption>
    </figure>
  );
}

const hueOf = (a: number, b: number): number => Math.round(((Math.atan2(b, a) * 180) / Math.PI + 360) % 360);
