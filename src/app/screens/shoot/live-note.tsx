import { Icon } from '../../parts/icon';
import { t } from '../../text/t';
import type { LiveView } from './use-live-view';

const ICONS = { good: 'check', limited: 'warn', retake: 'stop' } as const;

/** How fit the picture is and what to do about it: by word and sign. Only the advice is read out, when it changes. */
export function LiveNote({ live, frozen }: { readonly live: LiveView; readonly frozen: boolean }) {
  const { advice, glance } = live;
  const count = glance.conductors.length;
  const seen = count === 0 ? t('screen.live.none') : t('screen.live.seen', { count });
  return (
    <div className="live-note" data-verdict={advice.verdict}>
      <p role="status">
        <Icon name={ICONS[advice.verdict]} />
        {t(frozen && advice.verdict === 'good' ? 'screen.live.good-frozen' : advice.code)}
      </p>
      <p className="live-count">{glance.looked ? seen : t('screen.live.no-outlines')}</p>
    </div>
  );
}
