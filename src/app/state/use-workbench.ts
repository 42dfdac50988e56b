import { useMemo, useState } from 'react';
import {
  type ColorReference,
  type Job,
  type JobPhoto,
  type KnownLength,
  type NamedConductor,
  type Point,
  Problem,
} from '../../flow';
import type { InspectOptions, PhotoSource } from '../../inspect';
import { type CrossingChoice, crossingChoices, flipCrossing } from '../geometry/flip';
import { joinConductors } from '../geometry/join';
import { splitConductor } from '../geometry/split';
import type { Size } from '../geometry/view';
import type { PictureMode } from '../parts/picture/stage';
import { useServices } from '../services/context';
import { type EngineTask, useEngineTask } from './use-engine-task';
import { useOpenJob } from './use-job';
import { usePhotoBytes } from './use-photo-bytes';

export interface Workbench {
  readonly job: Job;
  readonly photo: JobPhoto;
  readonly bytes: Blob | null | undefined;
  readonly size: Size;
  readonly task: EngineTask;
  readonly selected: string | null;
  readonly select: (conductor: string | null) => void;
  readonly mode: PictureMode;
  readonly setMode: (mode: PictureMode) => void;
  readonly outlines: boolean;
  readonly toggleOutlines: () => void;
  readonly stroke: readonly Point[];
  readonly addToStroke: (at: Point) => void;
  readonly clearStroke: () => void;
  /** The last touch would have split off a piece too short to be read. */
  readonly tooClose: boolean;
  /** A reference was tapped and waits for the user to say what it is. */
  readonly pendingReference: Point | null;
  readonly touch: (at: Point, conductor: NamedConductor | null) => void;
  readonly traceStroke: () => void;
  readonly setReferences: (references: readonly ColorReference[]) => void;
  /** Ends touched of a length that the user points out: none, one or both. */
  readonly lengthEnds: readonly Point[];
  /** Keeps the length or, with null, takes it back. */
  readonly setScale: (scale: KnownLength | null) => void;
  readonly discard: (conductor: string) => void;
  /** Crossings of the selected conductor, least sure first. */
  readonly crossings: readonly CrossingChoice[];
  /** The selected conductor and the one it meets there go on as the other did; both are read again. */
  readonly flip: (choice: CrossingChoice) => void;
}

const isSame = (p: Point, q: Point): boolean => p[0] === q[0] && p[1] === q[1];

/** Everything that can be done to one photo by touch. Each change is one undoable edit. */
export function useWorkbench(job: Job, photo: JobPhoto): Workbench {
  const { engine } = useServices();
  const { edit } = useOpenJob();
  const bytes = usePhotoBytes(job.id, photo.id);
  const task = useEngineTask();
  const [selected, select] = useState<string | null>(null);
  const [mode, setModeNow] = useState<PictureMode>('look');
  const [outlines, setOutlines] = useState(true);
  const [stroke, setStroke] = useState<readonly Point[]>([]);
  const [tooClose, setTooClose] = useState(false);
  const [pendingReference, setPendingReference] = useState<Point | null>(null);
  const [lengthEnds, setLengthEnds] = useState<readonly Point[]>([]);
  const { workingWidth: width, workingHeight: height, conductors, references } = photo.findings;
  const size = useMemo(() => ({ width, height }), [width, height]);

  const setMode = (next: PictureMode): void => {
    setModeNow(next);
    setStroke([]);
    setTooClose(false);
    setPendingReference(null);
    setLengthEnds([]);
  };
  const withSource = (work: (source: PhotoSource, options: InspectOptions) => Promise<void>): void => {
    if (bytes) task.run((options) => work({ id: photo.id, name: photo.findings.photo.name, bytes }, options));
  };
  const replace = (removed: readonly string[], added: readonly NamedConductor[]): void => {
    edit({ type: 'conductors', photo: photo.id, removed, added });
    select(added[0]?.id ?? null);
    setMode('look');
  };
  const keepTraced = (traced: NamedConductor | null): void => {
    if (!traced) throw new Problem('no conductor here');
    const taken = new Set(conductors.map((c) => c.id));
    let id = traced.id;
    for (let n = 2; taken.has(id); n++) id = `${traced.id}.${n}`;
    replace([], [{ ...traced, id }]);
  };
  /** Reads the colors of new lengths before they enter the list. */
  const replaceReread = (removed: readonly string[], made: readonly NamedConductor[]): void =>
    withSource(async (source, options) => {
      replace(removed, await engine.reread(source, references, made, options));
    });

  const split = (whole: NamedConductor, at: Point): void => {
    const parts = splitConductor(whole, at);
    if (parts) replaceReread([whole.id], parts);
    else setTooClose(true);
  };
  const join = (first: string, second: NamedConductor): void => {
    const other = conductors.find((c) => c.id === first);
    if (other && other.id !== second.id) replaceReread([other.id, second.id], [joinConductors(other, second)]);
  };

  const crossings = useMemo(() => {
    const whole = conductors.find((c) => c.id === selected);
    return whole ? crossingChoices(whole, conductors) : [];
  }, [conductors, selected]);
  const flip = ({ at, other }: CrossingChoice): void => {
    const whole = conductors.find((c) => c.id === selected);
    const made = whole && flipCrossing(whole, other, at);
    if (made) replaceReread([whole.id, other.id], made);
  };

  const touch = (at: Point, conductor: NamedConductor | null): void => {
    const whole = conductors.find((c) => c.id === selected);
    if (mode === 'reference') setPendingReference(at);
    // A third touch begins anew: the first two were not meant.
    else if (mode === 'length')
      setLengthEnds((old) => (old.length === 1 && !isSame(old[0]!, at) ? [...old, at] : [at]));
    else if (mode === 'split') {
      if (whole) split(whole, at);
    } else if (mode === 'join') {
      if (conductor && selected) join(selected, conductor);
    } else if (conductor) select(conductor.id);
    else withSource(async (source, options) => keepTraced(await engine.trace(source, at, options)));
  };

  return {
    job,
    photo,
    bytes,
    size,
    task,
    selected,
    select,
    mode,
    setMode,
    outlines,
    toggleOutlines: () => setOutlines((on) => !on),
    stroke,
    addToStroke: (at) => setStroke((old) => [...old, at]),
    clearStroke: () => setStroke([]),
    tooClose,
    pendingReference,
    touch,
    traceStroke: () =>
      withSource(async (source, options) => keepTraced(await engine.traceStroke(source, stroke, options))),
    setReferences: (next) =>
      withSource(async (source, options) => {
        const reread = await engine.reread(source, next, conductors, options);
        edit({ type: 'reread', photo: photo.id, references: next, conductors: reread });
        setMode('look');
      }),
    lengthEnds,
    setScale: (scale) => {
      edit({ type: 'scale', photo: photo.id, scale });
      setMode('look');
    },
    discard: (conductor) => replace([conductor], []),
    crossings,
    flip,
  };
}
