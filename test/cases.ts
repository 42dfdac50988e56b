/** How many times fewer random cases are wanted: `test/mutate` runs the tests hundreds of times over. */
const FEWER = Number(process.env.FEWER_CASES ?? 1);

/** So many random cases, or a share of them and at least one, where fewer are wanted. */
export const cases = (usual: number): number => Math.max(1, Math.ceil(usual / FEWER));

/** All of a list, or its first few, where fewer cases are wanted. */
export const some = <T>(list: readonly T[]): readonly T[] => list.slice(0, cases(list.length));
