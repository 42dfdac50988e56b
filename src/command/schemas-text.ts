import { toJsonSchema } from '@valibot/to-json-schema';
import { SCHEMAS } from '../record';

/** File name and text of every published JSON Schema (draft 2020-12), made from what the program checks itself. */
export function schemaFiles(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(SCHEMAS).map(([name, schema]) => {
      // What no schema can say (a time that is a time) is left to the program.
      const { $schema, ...rest } = toJsonSchema(schema, { errorMode: 'ignore', target: 'draft-2020-12' });
      const titled = { $schema, title: `Hueproof ${name}`, ...rest };
      return [`${name}.schema.json`, `${JSON.stringify(titled, null, 2)}\n`];
    }),
  );
}
