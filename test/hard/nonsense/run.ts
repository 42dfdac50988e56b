import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { openInspector } from '../../../src/inspect/inspect.node.ts';
import { type Claims, claimsOf } from './count';
import { NONSENSE } from './pictures';

/**
 * What is claimed of pictures that show no conductor.
 * Usage: npm run hard:nonsense -- [--photos FOLDER [--every N]]
 * A folder of photos without conductors is counted by the words its files are named with.
 */
const { values } = parseArgs({
  options: {
    photos: { type: 'string' },
    every: { type: 'string', default: '1' },
  },
});
const folder = values.photos;
const tasks =
  folder === undefined
    ? NONSENSE.map(({ name, bytes }) => ({ kind: name, name, bytes }))
    : readdirSync(folder)
        .filter((f) => /\.(jpe?g|png|webp)$/i.test(f))
        .sort()
        .filter((_, k) => k % Number(values.every) === 0)
        .map((name) => ({
          kind: name.replace(/-?\d*\.\w+$/, ''),
          name,
          bytes: async () => readFileSync(join(folder, name)),
        }));

const inspector = await openInspector();
const kinds = new Map<string, Claims[]>();
for (const { kind, name, bytes } of tasks) {
  const { findings } = await inspector.inspect(await bytes(), name);
  const claims = claimsOf(findings);
  kinds.set(kind, [...(kinds.get(kind) ?? []), claims]);
  if (folder !== undefined && claims.surelyThere > 0) console.log(`${name}: ${JSON.stringify(claims)}`);
}
inspector.dispose();

const sum = (all: readonly Claims[], of: (c: Claims) => number): number => all.reduce((total, c) => total + of(c), 0);
const row = (all: readonly Claims[]) => ({
  pictures: all.length,
  'with any': all.filter((c) => c.conductors > 0).length,
  conductors: sum(all, (c) => c.conductors),
  'surely there': sum(all, (c) => c.surelyThere),
  'sure names': sum(all, (c) => c.sureNames),
  'sure roles': sum(all, (c) => c.sureRoles),
  verdicts: [...new Set(all.map((c) => c.verdict))].join('/'),
});
console.table({
  ...Object.fromEntries([...kinds].map(([kind, all]) => [kind, row(all)])),
  all: row([...kinds.values()].flat()),
});
