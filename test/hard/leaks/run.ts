import { parseArgs } from 'node:util';
import { countLeaks } from './count';

/** npm run hard:leaks -- [--photos N] [--classical] [--width PIXELS]: what is still held after N photos and N cancelled ones. */
const { values } = parseArgs({
  options: {
    photos: { type: 'string', default: '200' },
    classical: { type: 'boolean', default: false },
    width: { type: 'string' },
  },
});
const count = await countLeaks(Number(values.photos), {
  classical: values.classical,
  ...(values.width ? { width: Number(values.width) } : {}),
  onStep: (done, now, residentMb) => console.log(`${done}: ${JSON.stringify(now)}, resident ${residentMb} MB`),
});
console.table({ before: count.before, 'after reading': count.afterRead, 'after cancelling': count.afterCancelled });
console.log(`${count.cancelled} cancelled; resident ${count.residentMb.join(' MB early, ')} MB at the end`);
const level = (held: typeof count.before): string => JSON.stringify(held);
process.exitCode =
  level(count.before) === level(count.afterRead) && level(count.before) === level(count.afterCancelled) ? 0 : 1;
