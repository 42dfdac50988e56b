import type { SiteKnowledge } from '../../../flow';
import { isPoleSpace, MOST_SPACES } from '../../../identify';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import type { SiteChange } from './site-change';

interface SpaceFieldsProps {
  readonly site: SiteKnowledge;
  readonly view: PhotoView;
  readonly onChange: SiteChange;
}

/** Which pole space of the panel each conductor lands on. */
export function SpaceFields({ site, view, onChange }: SpaceFieldsProps) {
  const put = (conductor: string, text: string): void => {
    const space = Number(text);
    const { [conductor]: _, ...others } = site.spaces;
    onChange({ spaces: isPoleSpace(space) ? { ...others, [conductor]: space } : others });
  };
  const known = view.conductors.filter((c) => site.spaces[c.id] !== undefined).length;
  return (
    <details className="card">
      <summary>{t('screen.site.spaces', { count: known })}</summary>
      <div className="spaces">
        {view.conductors.map((c) => (
          <label key={c.id} className="space">
            <span>{t('screen.site.space', { label: view.labelOf(c.id) })}</span>
            <input
              type="number"
              inputMode="numeric"
              min={1}
              max={MOST_SPACES}
              defaultValue={site.spaces[c.id] ?? ''}
              onBlur={(e) => put(c.id, e.target.value)}
            />
          </label>
        ))}
      </div>
    </details>
  );
}
