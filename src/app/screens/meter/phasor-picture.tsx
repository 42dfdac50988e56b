import type { PhasorDiagram } from '../../../verify';
import { phasorDiagram } from '../../../verify';
import type { PhotoView } from '../../state/use-photo-view';
import { roleWord, systemWord } from '../../text/names';
import { measured } from '../../text/numbers';
import { t } from '../../text/t';

/** The voltages of the most probable system, to scale, with the same numbers as a table. */
export function PhasorPicture({ view }: { readonly view: PhotoView }) {
  const system = view.map.systems[0]?.system;
  const diagram = system ? phasorDiagram(system) : null;
  if (!diagram) return null;
  const name = (i: number): string => diagram.points[i]?.roles.map(roleWord).join(', ') ?? '';
  return (
    <section className="stack" aria-labelledby="phasors">
      <h2 id="phasors">{t('screen.meter.phasors', { system: systemWord(diagram.system) })}</h2>
      <Drawing diagram={diagram} />
      <table>
        <thead>
          <tr>
            <th scope="col">{t('screen.col.between')}</th>
            <th scope="col">{t('screen.col.nominal')}</th>
          </tr>
        </thead>
        <tbody>
          {diagram.edges.map((e) => (
            <tr key={`${e.from}-${e.to}`}>
              <td>{t('screen.meter.between', { one: name(e.from), two: name(e.to) })}</td>
              <td>{t('screen.value.volts', { value: measured(e.volts) })}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Half of the drawing's side, and how much of it the voltages may fill. */
const HALF = 150;
const FILL = 96;
/** Room for names beside the outer points. */
const MARGIN = 60;

function Drawing({ diagram }: { readonly diagram: PhasorDiagram }) {
  const k = FILL / (diagram.reach || 1);
  const at = (p: { readonly x: number; readonly y: number }): readonly [number, number] => [
    HALF + p.x * k,
    HALF - p.y * k,
  ];
  return (
    <svg className="phasors" viewBox={`${-MARGIN} 0 ${2 * (HALF + MARGIN)} ${2 * HALF}`} aria-hidden="true">
      {diagram.edges.map((e) => {
        const [x1, y1] = at(diagram.points[e.from] ?? { x: 0, y: 0 });
        const [x2, y2] = at(diagram.points[e.to] ?? { x: 0, y: 0 });
        return (
          <g key={`${e.from}-${e.to}`}>
            <line x1={x1} y1={y1} x2={x2} y2={y2} />
            <text className="phasor-volts" x={(x1 + x2) / 2} y={(y1 + y2) / 2}>
              {measured(e.volts)}
            </text>
          </g>
        );
      })}
      {diagram.points.map((p) => {
        const [x, y] = at(p);
        const loose = diagram.floating && p.roles.includes('ground');
        const side = x > HALF + 1 ? 'start' : x < HALF - 1 ? 'end' : 'middle';
        return (
          <g key={p.roles.join('-')}>
            <circle cx={x} cy={y} r="6" data-loose={loose} />
            <text
              x={x + (side === 'start' ? 10 : side === 'end' ? -10 : 0)}
              y={y > HALF + 1 ? y + 20 : y - 12}
              textAnchor={side}
            >
              {p.roles.map(roleWord)[0]}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
