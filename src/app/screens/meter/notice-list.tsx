import type { Message } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

/** Reasons to stop and call someone. */
export function StopList({ stops, view }: { readonly stops: readonly Message[]; readonly view: PhotoView }) {
  return stops.map((stop) => (
    <p key={JSON.stringify(stop)} className="note danger" role="alert">
      <strong>{t('screen.meter.stop')}</strong>
      {sayOf(stop, view.labelOf)}
    </p>
  ));
}

/** What stops nobody but has to be known: before the first reading, and beside each check. */
export function NoticeList({ notices, view }: { readonly notices: readonly Message[]; readonly view: PhotoView }) {
  return notices.map((notice) => (
    <p key={notice.code} className="note caution">
      {sayOf(notice, view.labelOf)}
    </p>
  ));
}
