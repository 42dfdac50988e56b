import type { SiteKnowledge } from '../../../flow';
import { isPoleSpace, mostSpaces } from '../../../identify';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import { BoardField } from './board-field';
import type { SiteChange } from './site-change';

interface SpaceFieldsProps {
  readonly site: SiteKnowledge;
  readonly view: PhotoView;
  readonly onChange: SiteChange;
  readonly onSite: (site: SiteKnowledge) => void;
}

/** How the panel is numbered, and which pole space of it each conductor lands on. */
export function SpaceFields({ site, view, onChange, onSite }: SpaceFieldsProps) {
  const put = (conductor: string, text: string): void => {
    const space = Number(text);
    const { [conductor]: _, ...others } = site.spaces;
    onChange({ spaces: isPoleSpace(space, site.board) ? { ...others, [conductor]: space } : others });
  };
  const known = view.conductors.filter((c) => site.spaces[c.id] !== undefined).length;
  return (
    <details className="card">
      <summary>{t('screen.site.spaces', { count: known })}</summary>
      <div className="stack">
        <BoardField site={site} onSite={onSite} />
        <div className="spaces">
          {view.conductors.map((c) => (
            <label key={c.id} className="space">
              <span>{t('screen.site.space', { label: view.labelOf(c.id) })}</span>
              <input
                type="number"
                inputMode="numeric"
                min={1}
                max={mostSpaces(site.board)}
                defaultValue={site.spaces[c.id] ?? ''}
                onBlur={(e) => put(c.id, e.target.value)}
              />
            </label>
          ))}
        </div>
      </div>
    </details>
  );
}
