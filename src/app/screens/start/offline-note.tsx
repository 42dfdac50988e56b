import { useState, useSyncExternalStore } from 'react';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

/** Whether the tool opens without a network, and the key to a newer version that waits. */
export function OfflineNote() {
  const { offline } = useServices();
  const { save } = useOpenJob();
  const { stored, newer } = useSyncExternalStore(offline.subscribe, offline.news);
  const [others, setOthers] = useState(false);
  return (
    <section className="stack" aria-label={t('screen.offline.label')}>
      <p className="soft" role="status">
        {t(`screen.offline.${stored}`)}
      </p>
      {newer && (
        <div className="note stack" role="status">
          <p>{t('screen.offline.newer')}</p>
          {others && <p>{t('screen.offline.other-windows')}</p>}
          <button
            type="button"
            className="key"
            disabled={save.kind !== 'saved'}
            onClick={() => void offline.switchToNewer().then((switched) => setOthers(!switched))}
          >
            {t('screen.offline.switch')}
          </button>
        </div>
      )}
    </section>
  );
}
