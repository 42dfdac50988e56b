import { LANGUAGE_NAMES, LOCALES } from '../../words';
import { keepLanguage, showLanguage } from '../services/language';
import { speech } from '../text/speech';

/** Goes on in the next language; the key is named in that language, so that it can be found by who needs it. */
export function LanguageKey() {
  const next = LOCALES[(LOCALES.indexOf(speech().locale) + 1) % LOCALES.length] ?? 'en';
  return (
    <button
      type="button"
      className="key"
      lang={next}
      aria-label={LANGUAGE_NAMES[next]}
      onClick={() => {
        keepLanguage(next);
        showLanguage(next);
      }}
    >
      <span className="wide-only">{LANGUAGE_NAMES[next]}</span>
      <span className="narrow-only">{next.toUpperCase()}</span>
    </button>
  );
}
