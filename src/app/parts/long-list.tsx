import { type ReactNode, useState } from 'react';
import { t } from '../text/t';

interface LongListProps<T> {
  readonly items: readonly T[];
  /** Items drawn at once: a thousand hold up a phone. */
  readonly step: number;
  readonly className?: string;
  /** A list item with a key of its own. */
  readonly children: (item: T, index: number) => ReactNode;
}

/** A list that draws its first items, and more when asked. */
export function LongList<T>({ items, step, className, children }: LongListProps<T>) {
  const [shown, setShown] = useState(step);
  return (
    <>
      <ul className={className}>{items.slice(0, shown).map(children)}</ul>
      {items.length > shown && (
        <button type="button" className="key wide" onClick={() => setShown(shown + step)}>
          {t('screen.turnover.more', { count: items.length - shown })}
        </button>
      )}
    </>
  );
}
