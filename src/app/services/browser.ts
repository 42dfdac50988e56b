import { createInspectClient } from '../../inspect';
import { askToPersist, openArrivals, openJobStore } from '../../record';
import { createThinker } from '../thinking/client';
import { lateStore } from './late-store';
import { browserOffline } from './offline';
import { sampleScenes } from './samples';
import type { Services } from './types';

/** The real services of a browser. */
export function browserServices(): Services {
  void askToPersist();
  return {
    store: lateStore(openJobStore()),
    arrivals: openArrivals(),
    engine: createInspectClient(),
    thinker: createThinker(),
    offline: browserOffline(),
    samples: sampleScenes(),
    now: () => new Date().toISOString(),
    newId: () => crypto.randomUUID(),
  };
}
