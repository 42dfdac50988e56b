import { createContext, type ReactNode, useContext, useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { EMPTY_TURNOVER, type Findings, type Job } from '../../flow';
import type { InspectOptions } from '../../inspect';
import { type TagPlace, terminationsOf } from '../../record';
import { mainConductor } from '../geometry/main-conductor';
import { type Journey, to } from '../routes';
import { useServices } from '../services/context';
import { photoTag } from '../services/photo-tag';
import { t } from '../text/t';
import { newJob, newJobPhoto } from './new-job';
import { type PlaceOfWork, placePhoto, tagged } from './place-photo';
import { EMPTY_SITE, siteOfNewPhoto } from './site';
import { type EngineTask, useEngineTask } from './use-engine-task';
import { useOpenJob } from './use-job';

/** A photo on its way in. */
export interface Arrival {
  /** Its id where it has one already: it was kept for a page that ended while reading it. */
  readonly id?: string;
  readonly bytes: Blob;
  readonly name: string;
  readonly journey: Journey;
  /** Title for the new job; absent: dated. */
  readonly title?: string;
  readonly demo?: boolean;
  /** The open job gets the photo instead of a new one. */
  readonly intoOpenJob?: boolean;
  /** Termination of the open job that the photo shows. */
  readonly at?: PlaceOfWork;
}

type Identified = Arrival & { readonly id: string };

export interface Reading {
  readonly arrival: Arrival | null;
  readonly task: EngineTask;
  readonly start: (arrival: Arrival) => void;
  readonly again: () => void;
  readonly close: () => void;
}

const ReadingContext = createContext<Reading | null>(null);

/** Reads arriving photos and leads to the screen that the journey wants first. */
export function ReadingProvider({ children }: { readonly children: ReactNode }) {
  const { engine, arrivals, newId, now } = useServices();
  const { job: openJob, open, edit, saver } = useOpenJob();
  const [, navigate] = useLocation();
  const task = useEngineTask();
  const [arrival, setArrival] = useState<Identified | null>(null);

  const value = useMemo<Reading>(() => {
    const read = async (arrived: Identified, options: InspectOptions): Promise<void> => {
      const { id } = arrived;
      const knowledge = arrived.intoOpenJob && openJob ? siteOfNewPhoto(openJob.site) : EMPTY_SITE;
      const source = { id, name: arrived.name, bytes: arrived.bytes };
      const findings = await engine.inspect(source, { ...options, knowledge });
      const place = await placeOf(arrived);
      const job = keep(arrived, id, findings, place);
      setArrival(null);
      const seen = place && taggedTermination(job, place);
      navigate(
        seen
          ? to.termination(job.id, seen)
          : arrived.at
            ? to.termination(job.id, arrived.at.id)
            : firstScreen(arrived.journey, job, id),
      );
    };
    /** The place that a label in the photo names, where nobody has named one. */
    const placeOf = async ({ at, intoOpenJob, bytes }: Arrival): Promise<TagPlace | null> => {
      if (at || !intoOpenJob || !openJob?.turnover) return null;
      // A photo that the browser cannot open as a picture was read by the engine all the same.
      return photoTag(bytes).catch(() => null);
    };
    const keep = (arrived: Arrival, id: string, findings: Findings, tag: TagPlace | null): Job => {
      const target = arrived.intoOpenJob ? openJob : null;
      const photo = newJobPhoto(id, findings, target?.photos.length ?? 0);
      if (target) {
        saver.addPhoto(target.id, id, arrived.bytes);
        const turnover = target.turnover ?? EMPTY_TURNOVER;
        const said = { by: target.by, at: now() };
        edit({
          type: 'add photo',
          photo,
          ...(arrived.at && { turnover: placePhoto(turnover, id, arrived.at, said) }),
          ...(tag && { turnover: { ...turnover, places: [...turnover.places, tagged(id, tag, said)] } }),
        });
        return { ...target, photos: [...target.photos, photo] };
      }
      const at = now();
      const title = arrived.title ?? t('screen.job.untitled', { date: at.slice(0, 10) });
      const fresh = newJob({ id: newId(), title, by: '', createdAt: at, demo: arrived.demo ?? false });
      const job: Job = { ...fresh, photos: [photo] };
      saver.addPhoto(job.id, id, arrived.bytes);
      open(job);
      return job;
    };
    // A device that cannot keep it (full, a private window) reads it all the same.
    const hold = ({ id, bytes, name, journey, intoOpenJob, at }: Identified): void =>
      void arrivals
        .keep(id, bytes, { name, journey, ...(intoOpenJob && openJob && { job: openJob.id }), ...(at && { at }) })
        .catch(() => {});
    const forget = (id: string): void => void arrivals.drop(id).catch(() => {});
    const start = (given: Arrival): void => {
      const arrived = { ...given, id: given.id ?? newId() };
      if (arrival && arrival.id !== arrived.id) forget(arrival.id);
      setArrival(arrived);
      // Practice scenes come with the tool.
      if (!arrived.demo) hold(arrived);
      task.run((options) => read(arrived, options));
    };
    return {
      arrival,
      task,
      start,
      again: () => {
        if (arrival) start(arrival);
      },
      close: () => {
        task.cancel();
        task.dismiss();
        if (arrival) forget(arrival.id);
        setArrival(null);
      },
    };
  }, [arrival, task, engine, arrivals, newId, now, openJob, open, edit, saver, navigate]);

  return <ReadingContext value={value}>{children}</ReadingContext>;
}

/** The termination a label names: its own, or the first at its space. */
function taggedTermination({ turnover, site }: Job, { panel, space, termination }: TagPlace): string | null {
  const all = terminationsOf(turnover?.lines ?? [], site.board);
  const own = all.find((each) => each.panel === panel && each.id === termination);
  return (own ?? all.find((each) => each.panel === panel && each.space === (space ?? null)))?.id ?? null;
}

function firstScreen(journey: Journey, job: Job, photo: string): string {
  if (journey === 'record') return to.record(job.id);
  if (journey === 'map') return to.map(job.id, photo);
  const findings = job.photos.find((p) => p.id === photo)?.findings;
  const main = findings && mainConductor(findings);
  return main ? to.conductor(job.id, photo, main.id) : to.photo(job.id, photo);
}

/** Photos on their way in. Throws outside of its provider, which is a programming mistake. */
export function useReading(): Reading {
  const value = useContext(ReadingContext);
  if (!value) throw new Error('no reading provider');
  return value;
}
