import type { ReactNode } from 'react';
import { t } from '../text/t';

/** The keys at the bottom of a screen, in reach of the thumb. */
export function Deck({ children }: { readonly children: ReactNode }) {
  return (
    <section className="deck" aria-label={t('screen.deck')}>
      {children}
    </section>
  );
}
