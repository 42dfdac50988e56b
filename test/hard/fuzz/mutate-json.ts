import { between, pick } from '../random';
import type { Json } from './target';

const ODD: readonly Json[] = [
  null,
  true,
  0,
  -0,
  -1,
  1e308,
  5e-324,
  2 ** 53,
  0.1,
  '',
  'constructor',
  '__proto__',
  '<img src=x onerror=alert(1)>',
  '=1+1',
  '\u0000\u202e\ud800',
  'x'.repeat(5000),
  '9999-99-99T99:99:99Z',
  [],
  {},
  [[]],
  [null],
];

/** Every place in a value, as the path to it. */
function places(value: Json, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (value === null || typeof value !== 'object') return [path];
  const inner = Object.entries(value).flatMap(([key, each]) =>
    places(each as Json, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [path, ...inner];
}

/** The value with what stands at a path changed; `undefined` takes it out. */
function replaced(
  value: Json,
  path: readonly (string | number)[],
  change: (old: Json) => Json | undefined,
): Json | undefined {
  const [key, ...rest] = path;
  if (key === undefined) return change(value);
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) {
    const list = value as readonly Json[];
    return list.flatMap((each, k) => {
      const next = k === key ? replaced(each, rest, change) : each;
      return next === undefined ? [] : [next];
    });
  }
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, each]) => {
      const next = name === String(key) ? replaced(each as Json, rest, change) : (each as Json);
      return next === undefined ? [] : [[name, next]];
    }),
  );
}

/** A JSON value with one to three places changed: another value, dropped, repeated, a key more, a number nudged. */
export function mutateJson(random: () => number, original: Json): Json {
  let value = original;
  for (let k = between(random, 1, 3); k > 0; k--) {
    const all = places(value);
    const path = pick(random, all);
    const how = between(random, 0, 6);
    const changed = replaced(value, path, (old) => {
      if (how === 0) return path.length > 0 ? undefined : old;
      if (how === 1 && Array.isArray(old)) return [...(old as readonly Json[]), ...(old as readonly Json[])];
      if (how === 2 && typeof old === 'number') return old * pick(random, [-1, 0.5, 2, 1e6, 1 + 1e-12]);
      if (how === 3 && typeof old === 'string') return old.slice(0, between(random, 0, old.length));
      if (how === 4 && old !== null && typeof old === 'object' && !Array.isArray(old))
        return { ...old, [pick(random, ['extra', '__proto__', 'length', ''])]: pick(random, ODD) };
      if (how === 5) return at(value, pick(random, all));
      return pick(random, ODD);
    });
    value = changed ?? null;
  }
  return value;
}

function at(value: Json, path: readonly (string | number)[]): Json {
  let here = value;
  for (const key of path) here = (here as { readonly [key: string]: Json })[String(key)] ?? null;
  return here;
}
