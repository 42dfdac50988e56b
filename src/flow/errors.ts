import type { Message } from './message';

/** One kind for each failure that the user can do something different about. */
export type ProblemKind =
  | 'empty file'
  | 'not a picture'
  | 'pdf'
  | 'heic unsupported'
  | 'truncated picture'
  | 'picture too small'
  | 'picture too large'
  | 'undecodable picture'
  | 'camera denied'
  | 'camera missing'
  | 'camera lost'
  | 'engine failed'
  | 'engine unavailable'
  | 'cancelled'
  | 'no conductor here'
  | 'storage full'
  | 'storage unavailable'
  | 'save not verified'
  | 'record changed'
  | 'changed elsewhere'
  | 'import malformed'
  | 'schedule unreadable'
  | 'schedule too large'
  | 'archive damaged'
  | 'archive too large'
  | 'bad argument';

/**
 * A failure the user is told about: `what` says what happened, `todo` what to do next; both are keys of the
 * catalogue. `cause` keeps the underlying error for the console, never for the screen.
 */
export class Problem extends Error {
  readonly kind: ProblemKind;
  readonly what: Message;
  readonly todo: Message;

  constructor(kind: ProblemKind, values?: Message['values'], cause?: unknown) {
    super(kind, cause === undefined ? undefined : { cause });
    this.name = 'Problem';
    this.kind = kind;
    const key = kind.replaceAll(' ', '-');
    this.what = values ? { code: `problem.${key}.what`, values } : { code: `problem.${key}.what` };
    this.todo = { code: `problem.${key}.todo` };
  }
}

/** Rejects with the 'cancelled' problem when the signal has fired. */
export function throwIfCancelled(signal: { readonly aborted: boolean } | undefined): void {
  if (signal?.aborted) throw new Problem('cancelled');
}
