import type { NamedConductor } from '../../../flow';
import type { HueState } from '../../state/use-hue-check';
import type { PhotoView } from '../../state/use-photo-view';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';
import { BestAction } from './best-action';

/** Below this a link through a crossing is shown as uncertain (flow: Crossing). */
const SURE_LINK = 0.8;

interface DoubtsProps {
  readonly conductor: NamedConductor;
  readonly view: PhotoView;
  readonly hue: HueState;
}

/** Why the color is unsure and what would settle it. */
export function Doubts({ conductor, view, hue }: DoubtsProps) {
  const { doubts, set } = conductor.insulation;
  const links = conductor.crossings.filter((c) => c.linkProbability < SURE_LINK);
  if (doubts.length === 0 && links.length === 0 && set.length === 1) return null;
  return (
    <section className="note caution stack" aria-labelledby="doubts">
      <h2 id="doubts">{t('screen.conductor.doubts')}</h2>
      <ul className="plain-list">
        {doubts.map((doubt) => (
          <li key={doubt.code}>{sayOf(doubt, view.labelOf)}</li>
        ))}
        {links.map((link) => (
          <li key={`${link.with}-${link.at[0]}`}>{t('screen.conductor.link', { label: view.labelOf(link.with) })}</li>
        ))}
      </ul>
      <BestAction hue={hue} />
    </section>
  );
}
