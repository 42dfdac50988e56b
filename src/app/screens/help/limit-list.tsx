import { t } from '../../text/t';

const LIMITS = [
  'screen.limits.color',
  'screen.limits.live',
  'screen.limits.phase',
  'screen.limits.old',
  'screen.limits.light',
  'screen.limits.photo',
  'screen.limits.private',
] as const;

/** What this tool cannot know, said plainly. */
export function LimitList() {
  return (
    <ul className="plain-list stack">
      {LIMITS.map((code) => (
        <li key={code}>{t(code)}</li>
      ))}
    </ul>
  );
}
