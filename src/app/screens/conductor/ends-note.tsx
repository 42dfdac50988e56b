import type { EndKind, NamedConductor } from '../../../flow';
import { t } from '../../text/t';

const WORDS = {
  'leaves the picture': 'screen.end.leaves',
  hidden: 'screen.end.hidden',
  terminal: 'screen.end.terminal',
  'cut end': 'screen.end.cut',
  unknown: 'screen.end.unknown',
} as const satisfies Readonly<Record<EndKind, string>>;

/** What the picture shows of both ends. Where an end goes on is never known from a picture. */
export function EndsNote({ conductor }: { readonly conductor: NamedConductor }) {
  const [first, second] = conductor.ends;
  return (
    <section className="note stack" aria-labelledby="ends">
      <h2 id="ends">{t('screen.end.title')}</h2>
      <ul className="plain-list">
        <li>{t('screen.end.one', { what: t(WORDS[first]) })}</li>
        <li>{t('screen.end.other', { what: t(WORDS[second]) })}</li>
      </ul>
      {conductor.ends.includes('cut end') && <p>{t('screen.end.cut-caution')}</p>}
    </section>
  );
}
