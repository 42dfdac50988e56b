import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../flow';
import type { InspectOptions } from '../../inspect';
import { toProblem } from './to-problem';

export interface EngineProgress {
  readonly stage: string;
  /** 0 to 1. */
  readonly share: number;
}

export interface EngineTask {
  /** What the engine is doing, null when it rests. */
  readonly busy: EngineProgress | null;
  readonly problem: Problem | null;
  /** Starts work; whatever was running is stopped first. A cancelled run leaves no problem behind. */
  readonly run: (work: (options: InspectOptions) => Promise<void>) => void;
  readonly cancel: () => void;
  readonly dismiss: () => void;
}

/** One piece of engine work at a time, with progress, cancel and the problem it ended with. Stops on unmount. */
export function useEngineTask(): EngineTask {
  const [busy, setBusy] = useState<EngineProgress | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const controller = useRef<AbortController | null>(null);

  const cancel = useCallback(() => controller.current?.abort(), []);
  useEffect(() => cancel, [cancel]);

  const run = useCallback((work: (options: InspectOptions) => Promise<void>) => {
    controller.current?.abort();
    const mine = new AbortController();
    controller.current = mine;
    setProblem(null);
    setBusy({ stage: 'start', share: 0 });
    const onStage = (stage: string, share: number): void => {
      if (controller.current === mine) setBusy({ stage, share });
    };
    const settle = (failure: Problem | null): void => {
      if (controller.current !== mine) return;
      controller.current = null;
      setBusy(null);
      setProblem(failure && failure.kind !== 'cancelled' ? failure : null);
    };
    work({ signal: mine.signal, onStage }).then(
      () => settle(null),
      (error: unknown) => settle(toProblem(error)),
    );
  }, []);

  return { busy, problem, run, cancel, dismiss: useCallback(() => setProblem(null), []) };
}
