export type Theme = 'dark' | 'sun';

const KEY = 'hueproof.theme';

/** The theme chosen on this device; dark until one was chosen, because the job starts behind a panel door. */
export function readTheme(): Theme {
  try {
    return localStorage.getItem(KEY) === 'sun' ? 'sun' : 'dark';
  } catch {
    return 'dark';
  }
}

/** Shows a theme and remembers it where the browser lets anything be remembered. */
export function showTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // Storage is switched off; the theme then lasts as long as the page.
  }
}
