import { useState } from 'react';
import { readTheme, showTheme, type Theme } from '../services/theme';
import { t } from '../text/t';
import { Icon } from './icon';

/** Switches between dark (headlamp) and sun (outdoors). */
export function ThemeKey() {
  const [theme, setTheme] = useState<Theme>(readTheme);
  const next: Theme = theme === 'dark' ? 'sun' : 'dark';
  return (
    <button
      type="button"
      className="key"
      aria-label={t(next === 'sun' ? 'screen.theme.to-sun' : 'screen.theme.to-dark')}
      onClick={() => {
        showTheme(next);
        setTheme(next);
      }}
    >
      <Icon name={next} />
    </button>
  );
}
