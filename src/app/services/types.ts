import type { InspectClient } from '../../inspect';
import type { Arrivals, JobStore } from '../../record';
import type { Thinker } from '../thinking/client';
import type { Offline } from './offline';

/** An invented demonstration scene. */
export interface SampleScene {
  readonly id: string;
  readonly file: string;
  readonly title: string;
  readonly description: string;
  readonly url: string;
  /** URL of a small picture of it. */
  readonly small: string;
}

/** Everything the screens need from outside React; tests hand in their own. */
export interface Services {
  readonly store: Omit<JobStore, 'close'>;
  readonly arrivals: Arrivals;
  readonly engine: InspectClient;
  readonly thinker: Thinker;
  readonly offline: Offline;
  readonly samples: readonly SampleScene[];
  readonly now: () => string;
  readonly newId: () => string;
}
