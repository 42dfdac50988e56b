/**
 * Something to be said to the user, not yet in any language. `code` is a key of the catalogue in
 * `src/words`; `values` fill its blanks. Cores return messages so that the same finding can be read on a
 * screen, in a terminal and in a report, in any language.
 */
export interface Message {
  readonly code: string;
  readonly values?: Readonly<Record<string, string | number>>;
}

export const message = (code: string, values?: Message['values']): Message => (values ? { code, values } : { code });
