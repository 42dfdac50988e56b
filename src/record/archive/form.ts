import * as v from 'valibot';

const whole = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const hex256 = v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/));

export const ManifestSchema = v.looseObject({
  format: v.literal('hueproof archive'),
  version: v.literal(1),
  exportedAt: v.string(),
  files: v.array(v.looseObject({ path: v.string(), bytes: whole, sha256: hex256, type: v.exactOptional(v.string()) })),
});

/** Form of job.json; what else a job holds is checked when it is put together. */
export const ShellSchema = v.looseObject({
  id: v.string(),
  schema: v.number(),
  photos: v.array(v.looseObject({ id: v.string(), hash: hex256 })),
});
