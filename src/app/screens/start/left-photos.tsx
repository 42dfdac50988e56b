import { useEffect, useState } from 'react';
import type { KeptArrival } from '../../../record';
import { isJourney } from '../../routes';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import { useReading } from '../../state/use-reading';
import { t } from '../../text/t';

/**
 * Photos that were being read when a page of the tool ended. Never read without being asked: a photo too large for the
 * device would end this page too, each time it is opened.
 */
export function LeftPhotos() {
  const { arrivals, store } = useServices();
  const { job, open } = useOpenJob();
  const { start } = useReading();
  const [left, setLeft] = useState<readonly KeptArrival[]>([]);
  /** Asked to be read, and waiting for its job to be opened. */
  const [next, setNext] = useState<KeptArrival | null>(null);
  useEffect(() => {
    // A device that keeps nothing has left nothing behind.
    arrivals.left().then(setLeft, () => setLeft([]));
  }, [arrivals]);

  useEffect(() => {
    if (!next || job?.id !== next.job) return;
    setNext(null);
    read(next, true);
  });

  const read = ({ id, bytes, name, journey, at }: KeptArrival, intoOpenJob: boolean): void =>
    start({
      ...{ id, bytes, name, intoOpenJob, journey: isJourney(journey) ? journey : 'map' },
      ...(at && intoOpenJob && { at }),
    });
  const leave = ({ id }: KeptArrival): void => {
    setLeft((all) => all.filter((each) => each.id !== id));
    arrivals.drop(id).catch(() => {});
  };
  const readIntoItsJob = async (one: KeptArrival): Promise<void> => {
    // A job that is gone, or whose record cannot be opened, gets no photo; it begins a job of its own then.
    const found = one.job === undefined ? null : await store.open(one.job).catch(() => null);
    if (!found) return read(one, false);
    // The page ended between the last write and forgetting the photo.
    if (found.photos.some(({ id }) => id === one.id)) return leave(one);
    open(found);
    setNext(one);
  };

  if (left.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="left-photos">
      <h2 id="left-photos">{t('screen.left.title')}</h2>
      {left.map((one) => (
        <div key={one.id} className="note stack">
          <p>{t('screen.left.text', { name: one.name })}</p>
          <p>{t('screen.left.again-ended')}</p>
          <div className="deck-row">
            <button type="button" className="key" onClick={() => leave(one)}>
              {t('screen.reading.other')}
            </button>
            <button type="button" className="key" onClick={() => void readIntoItsJob(one)}>
              {t('screen.reading.again')}
            </button>
          </div>
        </div>
      ))}
    </section>
  );
}
