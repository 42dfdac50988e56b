import type { Message } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface NoticeListProps {
  readonly stops: readonly Message[];
  readonly notices: readonly Message[];
  readonly view: PhotoView;
}

/** Reasons to stop and call someone, then what has to be known beforehand. */
export function NoticeList({ stops, notices, view }: NoticeListProps) {
  return (
    <>
      {stops.map((stop) => (
        <p key={JSON.stringify(stop)} className="note danger" role="alert">
          <strong>{t('screen.meter.stop')}</strong>
          {sayOf(stop, view.labelOf)}
        </p>
      ))}
      {notices.map((notice) => (
        <p key={notice.code} className="note caution">
          {sayOf(notice, view.labelOf)}
        </p>
      ))}
    </>
  );
}
