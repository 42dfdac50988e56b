import { useId } from 'react';
import type { Job, JobPhoto, SystemId } from '../../../flow';
import { type EdgeReading, type PhasorDiagram, phasorDiagram, readOnDiagram } from '../../../verify';
import { TableHead } from '../../parts/table-head';
import { meterOptions } from '../../state/meter-options';
import type { PhotoView } from '../../state/use-photo-view';
import { roleWord, systemWord } from '../../text/names';
import { measured } from '../../text/numbers';
import { type ScreenCode, t } from '../../text/t';

interface PhasorPictureProps {
  readonly job: Job;
  readonly photo: JobPhoto;
  readonly view: PhotoView;
}

/** A second system is drawn too from this probability on. */
const DRAWN = 0.5;

/** The voltages of the systems that are probably here, each to scale: what was read beside what is expected. */
export function PhasorPictures(props: PhasorPictureProps) {
  const shown = props.view.map.systems.filter((s, i) => i === 0 || s.probability >= DRAWN);
  return shown.map(({ system }) => <PhasorPicture key={system} system={system} {...props} />);
}

function PhasorPicture({ job, photo, view, system }: PhasorPictureProps & { readonly system: SystemId }) {
  const id = useId();
  const options = meterOptions(job, photo);
  const diagram = phasorDiagram(system, view.map, options.posted);
  if (!diagram) return null;
  const read = new Map(readOnDiagram(diagram, view.map, photo.readings, options).map((r) => [r.edge, r]));
  const name = (i: number): string => diagram.points[i]?.roles.map(roleWord).join(', ') ?? '';
  return (
    <section className="stack" aria-labelledby={id}>
      <h2 id={id}>{t('screen.meter.phasors', { system: systemWord(diagram.system) })}</h2>
      <Drawing diagram={diagram} read={read} />
      <table>
        <TableHead columns={['screen.col.between', 'screen.col.nominal', 'screen.meter.read']} />
        <tbody>
          {diagram.edges.map((e, i) => (
            <tr key={`${e.from}-${e.to}`}>
              <td>{t('screen.meter.between', { one: name(e.from), two: name(e.to) })}</td>
              <td>{t('screen.value.volts', { value: measured(e.volts) })}</td>
              <td>
                <ReadCell read={read.get(i)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const rangeWord = ({ low, high }: EdgeReading): string =>
  measured(low) === measured(high) ? measured(low) : `${measured(low)}–${measured(high)}`;

function agreement({ contradicts, beyondNormal }: EdgeReading): ScreenCode {
  if (contradicts) return 'screen.meter.read-against';
  return beyondNormal ? 'screen.meter.read-beyond' : 'screen.meter.read-agrees';
}

function ReadCell({ read }: { readonly read: EdgeReading | undefined }) {
  if (!read) return <small className="soft">{t('screen.meter.read-none')}</small>;
  const value = t('screen.value.volts', { value: rangeWord(read) });
  return (
    <>
      <b>{value}</b>
      <small className="block">{t(agreement(read))}</small>
    </>
  );
}

/** Half of the drawing's side, and how much of it the voltages may fill. */
const HALF = 150;
const FILL = 96;
/** Room for names beside the outer points. */
const MARGIN = 60;

interface DrawingProps {
  readonly diagram: PhasorDiagram;
  /** By index of edge. */
  readonly read: ReadonlyMap<number, EdgeReading>;
}

function Drawing({ diagram, read }: DrawingProps) {
  const k = FILL / (diagram.reach || 1);
  const at = (p: { readonly x: number; readonly y: number }): readonly [number, number] => [
    HALF + p.x * k,
    HALF - p.y * k,
  ];
  return (
    <svg className="phasors" viewBox={`${-MARGIN} 0 ${2 * (HALF + MARGIN)} ${2 * HALF}`} aria-hidden="true">
      {diagram.edges.map((e, i) => {
        const found = read.get(i);
        const [x1, y1] = at(diagram.points[e.from] ?? { x: 0, y: 0 });
        const [x2, y2] = at(diagram.points[e.to] ?? { x: 0, y: 0 });
        return (
          <g key={`${e.from}-${e.to}`}>
            <line x1={x1} y1={y1} x2={x2} y2={y2} />
            <text className="phasor-volts" x={(x1 + x2) / 2} y={(y1 + y2) / 2}>
              {measured(e.volts)}
            </text>
            {found && (
              <text
                className="phasor-volts phasor-read"
                data-against={found.contradicts}
                x={(x1 + x2) / 2}
                y={(y1 + y2) / 2 + 15}
              >
                {t(found.contradicts ? 'screen.meter.read-mark-against' : 'screen.meter.read-mark', {
                  value: rangeWord(found),
                })}
              </text>
            )}
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
