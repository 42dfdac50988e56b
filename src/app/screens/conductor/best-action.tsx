import type { HueState } from '../../state/use-hue-check';
import { say } from '../../text/say';
import { t } from '../../text/t';

/** An action that would make the best name less than this much surer is not worth the way. */
const WORTH_DOING = 0.02;

/** The one action that would help most with a doubtful color, and by how much. */
export function BestAction({ hue }: { readonly hue: HueState }) {
  const best = typeof hue === 'string' ? undefined : hue.advice[0];
  if (!best || best.gain < WORTH_DOING) return <p>{t('screen.conductor.settle')}</p>;
  return (
    <>
      <p>
        <b>{t('screen.hue.best')}</b> {say(best.message)}{' '}
        {t('screen.hue.gain', { points: Math.round(100 * best.gain) })}
      </p>
      <p className="soft">{t('screen.hue.then')}</p>
    </>
  );
}
