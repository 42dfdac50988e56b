import { SAFETY_STEPS } from '../../../verify';
import { say } from '../../text/say';
import { t } from '../../text/t';

/** Standing cautions, beside the check in hand. */
export function Cautions() {
  return (
    <div className="note caution">
      <strong>{t('screen.safety.cautions')}</strong>
      <ul className="plain-list">
        {SAFETY_STEPS.filter((s) => s.moment === 'caution').map((s) => (
          <li key={s.id}>{say(s.text)}</li>
        ))}
      </ul>
    </div>
  );
}
