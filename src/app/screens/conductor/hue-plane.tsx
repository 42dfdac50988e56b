import type { InsulationColor } from '../../../flow';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';
import { HALF, type HuePlane, namesAround, placeLabels, scaleOf } from './hue-layout';

type Region = HuePlane['reading'];

/** Where the reading lies among the names: its own region dashed, those of the possible names filled with their hatch. */
export function HuePlanePicture({
  plane,
  insulation,
}: {
  readonly plane: HuePlane;
  readonly insulation: InsulationColor;
}) {
  const k = scaleOf(plane);
  const ellipse = (e: Region) => ({
    rx: e.long * k,
    ry: e.short * k,
    transform: `translate(${e.x * k} ${-e.y * k}) rotate(${(-e.angle * 180) / Math.PI})`,
  });
  const around = namesAround(plane).map(colorWord).join(t('screen.color.or-between'));
  const lies = around ? t('screen.hue.lies', { names: around }) : t('screen.hue.lies-nowhere');
  const possible = plane.names.filter((e) => insulation.set.includes(e.name));
  const labels = placeLabels(plane, insulation.set);
  return (
    <figure className="hue">
      <svg viewBox={`${-HALF} ${-HALF} ${2 * HALF} ${2 * HALF}`} role="img" aria-label={lies}>
        <path className="hue-cross" d={`M${-HALF} 0H${HALF}M0 ${-HALF}V${HALF}`} />
        {plane.names.map((e) => (
          <ellipse key={e.name} className="hue-region" {...ellipse(e)} />
        ))}
        {possible.map((e) => (
          <ellipse key={e.name} className="hue-possible" fill={`url(#hatch-${e.name})`} {...ellipse(e)} />
        ))}
        {labels.map(
          ({ name, x, y, from }) =>
            from && <path key={name} className="hue-lead" d={`M${from.x} ${from.y}L${x} ${y}`} />,
        )}
        {labels.map(({ name, letters, x, y }) => (
          <text key={name} className={insulation.set.includes(name) ? 'hue-name' : undefined} x={x} y={y}>
            {letters}
          </text>
        ))}
        <ellipse className="hue-spread" {...ellipse(plane.reading)} />
        <path
          className="hue-dot-cross"
          d="M-7 0H7M0 -7V7"
          transform={`translate(${plane.reading.x * k} ${-plane.reading.y * k})`}
        />
      </svg>
      <figcaption className="soft">
        {lies} {t('screen.hue.plane')}
      </figcaption>
    </figure>
  );
}
