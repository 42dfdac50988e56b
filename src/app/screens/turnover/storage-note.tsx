import { useEffect, useState } from 'react';
import { askToPersist, type StorageSpace, storageSpace } from '../../../record';
import { t } from '../../text/t';

const MEGA = 2 ** 20;
/** Below this much room a day's photos may not fit. */
const SCARCE = 500 * MEGA;

/** Room on this device, and whether the browser may clear the record by itself. */
export function StorageNote() {
  const [space, setSpace] = useState<StorageSpace | null>(null);
  useEffect(() => {
    askToPersist()
      .then(storageSpace)
      .then(setSpace, () => setSpace({ persisted: false }));
  }, []);
  if (!space) return null;
  const { usedBytes: used, quotaBytes: quota, persisted } = space;
  const left = used === undefined || quota === undefined ? null : quota - used;
  return (
    <section className="card stack" aria-labelledby="room">
      <h2 id="room">{t('screen.turnover.room')}</h2>
      {left !== null && used !== undefined && (
        <p>{t('screen.turnover.room-left', { used: Math.round(used / MEGA), left: Math.round(left / MEGA) })}</p>
      )}
      {left !== null && left < SCARCE && <p className="note">{t('screen.turnover.room-scarce')}</p>}
      {!persisted && <p className="note">{t('screen.turnover.not-persisted')}</p>}
    </section>
  );
}
