import { type SiteKnowledge, TAG_WORDS } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';

interface TagFieldsProps {
  readonly site: SiteKnowledge;
  readonly view: PhotoView;
  /** Takes the whole site, since no tag takes the answer away. */
  readonly onSite: (site: SiteKnowledge) => void;
}

/** What the tag on each conductor reads, where it names a phase, neutral or ground. */
export function TagFields({ site, view, onSite }: TagFieldsProps) {
  const tags = site.tags ?? {};
  const put = (conductor: string, value: string): void => {
    const { [conductor]: _, ...others } = tags;
    const word = TAG_WORDS.find((w) => w === value);
    onSite({ ...site, tags: word ? { ...others, [conductor]: word } : others });
  };
  const read = view.conductors.filter((c) => tags[c.id] !== undefined).length;
  return (
    <details className="card">
      <summary>{t('screen.site.tags', { count: read })}</summary>
      <div className="stack">
        <p className="soft">{t('screen.site.tags-how')}</p>
        <div className="spaces">
          {view.conductors.map((c) => (
            <label key={c.id} className="space">
              <span>{t('screen.site.tag', { label: view.labelOf(c.id) })}</span>
              <select value={tags[c.id] ?? ''} onChange={(e) => put(c.id, e.target.value)}>
                <option value="">{t('screen.site.tag-none')}</option>
                {TAG_WORDS.map((word) => (
                  <option key={word} value={word}>
                    {word}
                  </option>
                ))}
              </select>
            </label>
          ))}
        </div>
      </div>
    </details>
  );
}
