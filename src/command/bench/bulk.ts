import { openInspector } from '../../inspect/inspect.node.ts';
import { SIZES, scenePhoto } from './photo';

/** Photos of 12 megapixels read one after the other for a while by this process; how many a minute. */
export async function bulk(seconds: number): Promise<number> {
  const bytes = await scenePhoto(SIZES[1]);
  const engine = await openInspector();
  await engine.inspect(bytes, 'warm.jpg');
  const begun = performance.now();
  let read = 0;
  while (performance.now() - begun < seconds * 1000) {
    await engine.inspect(bytes, 'bulk.jpg');
    read++;
  }
  const minutes = (performance.now() - begun) / 60_000;
  engine.dispose();
  return read / minutes;
}
