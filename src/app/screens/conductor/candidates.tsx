import type { NamedConductor } from '../../../flow';
import { CablePiece } from '../../parts/cable';
import { Share } from '../../parts/share';
import type { HueState } from '../../state/use-hue-check';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';
import { HuePicture } from './hue-picture';
import { HuePlanePicture } from './hue-plane';

/** Candidates below this are not worth a line. */
const WORTH_SHOWING = 0.01;

/** Which names the color could have, how probable each is, and where it lies among them. */
export function Candidates({ conductor, hue }: { readonly conductor: NamedConductor; readonly hue: HueState }) {
  const { insulation } = conductor;
  const shown = insulation.candidates.filter((c, i) => i === 0 || c.probability >= WORTH_SHOWING).slice(0, 5);
  const set = insulation.set.map(colorWord).join(t('screen.color.or-between'));
  return (
    <section className="stack" aria-labelledby="candidates">
      <h2 id="candidates">{t('screen.conductor.candidates')}</h2>
      <ul className="stack">
        {shown.map((c) => (
          <li key={c.name}>
            <Share of={<CablePiece name={c.name} />} probability={c.probability} />
          </li>
        ))}
      </ul>
      <p>{t(insulation.set.length > 1 ? 'screen.conductor.set' : 'screen.conductor.set-one', { set })}</p>
      {typeof hue === 'string' ? (
        <HuePicture insulation={insulation} />
      ) : (
        <HuePlanePicture plane={hue.picture} insulation={insulation} />
      )}
    </section>
  );
}
