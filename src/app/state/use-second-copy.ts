import { useCallback, useEffect, useRef, useState } from 'react';
import { type Job, Problem } from '../../flow';
import { type CopyPlace, copyPlace, keepCopyPlace, mayWrite, writeCopy } from '../../record';
import { useServices } from '../services/context';
import { pickFolder } from '../services/pick-folder';
import { toProblem } from './to-problem';
import { useOpenJob } from './use-job';

export interface SecondCopy {
  readonly place: CopyPlace | null;
  /** The copy holds the job as it is saved now. */
  readonly current: boolean;
  readonly writing: boolean;
  readonly problem: Problem | null;
  readonly choose: () => void;
  readonly copyNow: () => void;
  readonly stop: () => void;
}

/** Quiet time after a save before the copy is written, and least time between two copies, milliseconds. */
const QUIET = 20_000;
const BETWEEN = 180_000;

/** Keeps an archive of the open job in a folder that the user picked, outside of the browser's storage. */
export function useSecondCopy(job: Job, fileName: string): SecondCopy {
  const { store, now } = useServices();
  const { save } = useOpenJob();
  const [place, setPlace] = useState<CopyPlace | null>(null);
  const [head, setHead] = useState<string | null>(null);
  const [writing, setWriting] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const latest = useRef(job);
  latest.current = job;
  const saved = save.kind === 'saved';

  useEffect(() => {
    copyPlace(job.id).then(setPlace, () => setPlace(null));
  }, [job.id]);
  // Each save of a changed job lengthens the log.
  useEffect(() => {
    if (saved)
      store.log(job.id).then(
        (log) => setHead(log.at(-1)?.hash ?? null),
        () => setHead(null),
      );
  }, [store, job.id, saved]);

  const write = useCallback(
    async (to: CopyPlace, ask: boolean): Promise<void> => {
      setWriting(true);
      setProblem(null);
      try {
        if (!(await mayWrite(to.folder, ask))) {
          if (ask) throw new Problem('storage unavailable');
          return;
        }
        const log = await store.log(latest.current.id);
        // Two files in turn: should the browser have lost photos meanwhile, the copy that has them stays.
        const file = to.file.endsWith('-1.zip')
          ? to.file.replace(/-1\.zip$/, '-2.zip')
          : to.file.replace(/(-2)?\.zip$/, '-1.zip');
        await writeCopy(to.folder, file, await store.exportArchive(latest.current));
        const next = { ...to, file, writtenAt: now(), holds: log.at(-1)?.hash ?? null };
        await keepCopyPlace(latest.current.id, next);
        setPlace(next);
      } catch (error) {
        setProblem(toProblem(error));
      } finally {
        setWriting(false);
      }
    },
    [store, now],
  );

  const current = place !== null && place.holds !== null && place.holds === head;
  useEffect(() => {
    if (!place || !saved || current || writing || problem) return undefined;
    const since = place.writtenAt === null ? BETWEEN : Date.now() - Date.parse(place.writtenAt);
    const timer = setTimeout(() => void write(place, false), Math.max(QUIET, BETWEEN - since));
    return () => clearTimeout(timer);
  }, [place, saved, current, writing, problem, write]);

  return {
    place,
    current,
    writing,
    problem,
    choose: () => {
      pickFolder().then(
        (folder) => folder && write({ folder, file: `${fileName}.zip`, writtenAt: null, holds: null }, true),
        (error: unknown) => setProblem(toProblem(error)),
      );
    },
    copyNow: () => {
      if (place) void write(place, true);
    },
    stop: () => {
      keepCopyPlace(job.id, null).then(
        () => setPlace(null),
        (error: unknown) => setProblem(toProblem(error)),
      );
    },
  };
}
