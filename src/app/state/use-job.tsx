import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useReducer,
  useState,
} from 'react';
import type { Job } from '../../flow';
import { useServices } from '../services/context';
import type { Edit } from './edit';
import { jobReducer } from './reducer';
import { createSaver, type Saver, type SaveState } from './saver';
import type { Mapped } from './with-map';

export interface OpenJob {
  readonly job: Job | null;
  readonly save: SaveState;
  readonly saver: Saver;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly open: (job: Job) => void;
  readonly close: () => void;
  /** A phase map has been inferred anew. */
  readonly mapped: (mapped: Mapped) => void;
  readonly edit: (edit: Edit) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  /** Tries a failed save again. */
  readonly saveAgain: () => void;
}

const OpenJobContext = createContext<OpenJob | null>(null);

/** Holds the one open job, its undo history, and keeps every change on the device. */
export function OpenJobProvider({ children }: { readonly children: ReactNode }) {
  const { store, arrivals, now } = useServices();
  const [state, dispatch] = useReducer(jobReducer, null);
  const [save, setSave] = useState<SaveState>({ kind: 'saved' });
  const saver = useMemo(
    () => createSaver(store, setSave, (photo) => void arrivals.drop(photo).catch(() => {})),
    [store, arrivals],
  );
  const job = state?.present ?? null;

  useEffect(() => {
    if (job) saver.save(job);
  }, [job, saver]);

  const mapped = useCallback((news: Mapped) => dispatch({ type: 'mapped', mapped: news }), []);
  const open = useCallback((next: Job) => dispatch({ type: 'open', job: next }), []);

  const value = useMemo<OpenJob>(
    () => ({
      job,
      save,
      saver,
      canUndo: (state?.past.length ?? 0) > 0,
      canRedo: (state?.future.length ?? 0) > 0,
      open,
      mapped,
      close: () => dispatch({ type: 'close' }),
      edit: (edit) => dispatch({ type: 'edit', edit, at: now() }),
      undo: () => dispatch({ type: 'undo' }),
      redo: () => dispatch({ type: 'redo' }),
      saveAgain: () => {
        if (job) saver.save(job);
      },
    }),
    [job, save, saver, state, open, mapped, now],
  );
  return <OpenJobContext value={value}>{children}</OpenJobContext>;
}

/** The open job. Throws outside of its provider, which is a programming mistake. */
export function useOpenJob(): OpenJob {
  const value = useContext(OpenJobContext);
  if (!value) throw new Error('no job provider');
  return value;
}
