import { ready, setBackend } from '@tensorflow/tfjs-core';
import type { BackendChoice } from '../../../src/vision/network/load';

/** Sets a tfjs backend up for a test; throws where it can't run. */
export async function useBackend(choice: BackendChoice): Promise<void> {
  await choice.register();
  if (!(await setBackend(choice.name))) throw new Error(`no backend ${choice.name}`);
  await ready();
}
