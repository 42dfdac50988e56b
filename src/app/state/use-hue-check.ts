import { useEffect, useState } from 'react';
import type { NamedConductor } from '../../flow';
import type { HueCheck } from '../../inspect';
import { useServices } from '../services/context';
import type { Workbench } from './use-workbench';

/** What came of a closer look: still at it, nothing to be told, or the answer. */
export type HueState = 'looking' | 'nothing' | HueCheck;

/**
 * A closer look at a conductor's color, beside another one where given. Answers that come after the question changed are
 * dropped; a failure leaves nothing to be told, because the reading itself stands without it.
 */
export function useHueCheck(bench: Workbench, conductor: NamedConductor, other?: NamedConductor): HueState {
  const { engine } = useServices();
  const [state, setState] = useState<HueState>('looking');
  const { bytes } = bench;
  const { id, findings } = bench.photo;
  const { references } = findings;
  const { name } = findings.photo;

  useEffect(() => {
    setState('looking');
    if (!bytes) return;
    let current = true;
    const settle = (found: HueCheck | null): void => {
      if (current) setState(found ?? 'nothing');
    };
    engine.hue({ id, name, bytes }, references, conductor, other).then(settle, () => settle(null));
    return () => {
      current = false;
    };
  }, [engine, id, name, bytes, references, conductor, other]);

  return state;
}
