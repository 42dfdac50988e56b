import { type ColorName, IEC_60757, type InsulationColor, type Stripe, type UserWord } from '../../flow';
import { colorWord } from '../text/names';
import { t } from '../text/t';
import { Swatch } from './swatch';

interface CableProps {
  readonly insulation: InsulationColor;
  readonly stripe: Stripe | null;
  readonly word?: UserWord | undefined;
}

/** A conductor's insulation color: the user's word, or every name of the set, each with hatch and letters. */
export function Cable({ insulation, stripe, word }: CableProps) {
  const names = word ? (word.name === 'not decided' ? [] : [word.name]) : insulation.set;
  const stripeName = word?.stripe === undefined ? stripe?.name : (word.stripe ?? undefined);
  return (
    <span className="cable">
      {names.length === 0 && t('screen.color.not-decided')}
      {names.map((name, i) => (
        <CablePiece key={name} name={name} stripe={stripeName} or={i > 0} />
      ))}
      {word && <small className="user-word">{t('screen.color.user-word')}</small>}
    </span>
  );
}

interface CablePieceProps {
  readonly name: ColorName;
  readonly stripe?: ColorName | undefined;
  /** Not the first of several: set off by "or". */
  readonly or?: boolean;
}

/** One color name with its hatch and IEC letters. */
export function CablePiece({ name, stripe, or = false }: CablePieceProps) {
  return (
    <span className="cable-piece">
      {or && <i>{t('screen.color.or')}</i>}
      <Swatch name={name} stripe={stripe} />
      <b>
        {stripe ? t('screen.color.striped', { color: colorWord(name), stripe: colorWord(stripe) }) : colorWord(name)}
      </b>
      <span className="letters">{stripe ? `${IEC_60757[name]}/${IEC_60757[stripe]}` : IEC_60757[name]}</span>
    </span>
  );
}
