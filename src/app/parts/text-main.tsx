import type { ReactNode } from 'react';

/** The scrolling part of a screen that is mostly text. It takes the focus, so that arrow keys can scroll it. */
export function TextMain({ children }: { readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard (WCAG 2.1.1)
    <main className="stack column" tabIndex={0}>
      {children}
    </main>
  );
}
